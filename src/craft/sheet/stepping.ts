import type { RectMm } from './plan.js';

export interface BoxMm {
  readonly widthMm: number;
  readonly heightMm: number;
}

export interface Stepping {
  /** Bleed boxes of the placed copies, row by row as it reads. */
  readonly boxes: readonly RectMm[];
  /** Most copies the area takes. */
  readonly capacity: number;
  /** From one bleed box to the next. */
  readonly gapMm: number;
  /** The block of all boxes. */
  readonly blockWidthMm: number;
  readonly blockHeightMm: number;
}

/** Room between neighbours, roomiest first; less is taken only for more copies. 6 mm hold a full trim line. */
export const usualGapsMm: readonly number[] = [6, 4, 2];
/** Rounding play: a tenth of a micrometre, far below any printer's step. */
const playMm = 1e-4;

/**
 * Step up to `copies` equal boxes over an area in rows and columns, the block centred, a last short row beginning at
 * the left. Rows are kept few and even (four on a roomy sheet lie two by two); `longRows` fills each row instead,
 * which spends the least of a roll.
 */
export function stepBoxes(
  area: RectMm,
  box: BoxMm,
  copies: number,
  { gapsMm = usualGapsMm, longRows = false }: { gapsMm?: readonly number[]; longRows?: boolean } = {},
): Stepping {
  return gapsMm
    .map((gapMm) => stepAtGap(area, box, copies, gapMm, longRows))
    .reduce((kept, closer) => (closer.boxes.length > kept.boxes.length ? closer : kept));
}

function stepAtGap(area: RectMm, box: BoxMm, copies: number, gapMm: number, longRows: boolean): Stepping {
  const mostColumns = count(area.widthMm, box.widthMm, gapMm);
  const mostRows = count(area.heightMm, box.heightMm, gapMm);
  const capacity = mostColumns * mostRows;
  const placed = Math.min(copies, capacity);
  if (placed === 0) return { boxes: [], capacity, gapMm, blockWidthMm: 0, blockHeightMm: 0 };
  const rows = Math.ceil(placed / mostColumns);
  const columns = longRows ? Math.min(mostColumns, placed) : Math.ceil(placed / rows);
  const blockWidthMm = columns * box.widthMm + (columns - 1) * gapMm;
  const blockHeightMm = rows * box.heightMm + (rows - 1) * gapMm;
  const leftMm = area.xMm + (area.widthMm - blockWidthMm) / 2;
  const topMm = area.yMm + (area.heightMm - blockHeightMm) / 2;
  const boxes = Array.from({ length: placed }, (_, index) => ({
    xMm: leftMm + (index % columns) * (box.widthMm + gapMm),
    yMm: topMm + Math.floor(index / columns) * (box.heightMm + gapMm),
    widthMm: box.widthMm,
    heightMm: box.heightMm,
  }));
  return { boxes, capacity, gapMm, blockWidthMm, blockHeightMm };
}

function count(roomMm: number, sizeMm: number, gapMm: number): number {
  return Math.max(0, Math.floor((roomMm + playMm + gapMm) / (sizeMm + gapMm)));
}
