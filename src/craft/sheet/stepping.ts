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

/** Room between neighbours, the roomiest that takes all copies: two trim marks, one, or only the cut. */
const gapsMm = [6, 4, 2] as const;
/** Rounding play: a tenth of a micrometre, far below any printer's step. */
const playMm = 1e-4;

/**
 * Step up to `copies` equal boxes over an area in rows and columns, the block centred, a last short row beginning at
 * the left. Rows are kept few and even (four on a roomy sheet lie two by two); `longRows` fills each row instead,
 * which spends the least of a roll.
 */
export function stepBoxes(area: RectMm, box: BoxMm, copies: number, longRows = false): Stepping {
  let best = stepAtGap(area, box, copies, gapsMm[0], longRows);
  for (const gapMm of gapsMm.slice(1)) {
    if (best.boxes.length >= copies) break;
    const closer = stepAtGap(area, box, copies, gapMm, longRows);
    if (closer.boxes.length > best.boxes.length) best = closer;
  }
  return best;
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
