import type { Mark, SheetPlan } from '#craft/sheet';
import { mmPerInch } from '#craft/units';
import { type TextMask, textMask } from '../text/text-mask.js';

/** A flat rectangle on the sheet; right and bottom are one past the last pixel. */
export interface PixelFill {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
  /** 0..255 device RGB. */
  readonly rgb: readonly [number, number, number];
}

export interface PixelMarks {
  readonly fills: readonly PixelFill[];
  readonly texts: readonly TextMask[];
}

const black = [0, 0, 0] as const;
const white = [255, 255, 255] as const;

/** Every mark as flat rectangles and text masks. Each edge is rounded on its own, so no error adds up across cells. */
export async function toPixelMarks(plan: SheetPlan, ppi: number): Promise<PixelMarks> {
  const perMm = ppi / mmPerInch;
  const fills: PixelFill[] = [];
  const texts: TextMask[] = [];
  for (const mark of plan.marks) {
    if (mark.kind === 'fill') fills.push(fillOf(mark, perMm));
    else if (mark.kind === 'cells') fills.push(...cellFills(mark, perMm));
    else if (mark.kind === 'shape') fills.push(...shapeFills(mark, perMm));
    else {
      const mask = await textMask(mark, perMm);
      if (mask !== null) texts.push(mask);
    }
  }
  return { fills, texts };
}

function fillOf(mark: Extract<Mark, { kind: 'fill' }>, perMm: number): PixelFill {
  const { xMm, yMm, widthMm, heightMm } = mark.rect;
  const left = Math.round(xMm * perMm);
  const top = Math.round(yMm * perMm);
  return {
    left,
    top,
    // A line thinner than a pixel is still printed as one pixel.
    right: Math.max(left + 1, Math.round((xMm + widthMm) * perMm)),
    bottom: Math.max(top + 1, Math.round((yMm + heightMm) * perMm)),
    rgb: mark.rgb,
  };
}

/**
 * Pixels whose middle lies inside, row by row (even-odd rule). No half tones at the edge: those come out otherwise on
 * every printer, and a slanted edge is there to be measured.
 */
function shapeFills({ corners, rgb }: Extract<Mark, { kind: 'shape' }>, perMm: number): PixelFill[] {
  const ys = corners.map(({ yMm }) => yMm * perMm);
  const fills: PixelFill[] = [];
  for (let y = Math.round(Math.min(...ys)); y < Math.round(Math.max(...ys)); y += 1) {
    const crossings = corners
      .flatMap(({ xMm, yMm }, i): number[] => {
        const next = corners[(i + 1) % corners.length]!;
        const from = yMm * perMm - (y + 0.5);
        const to = next.yMm * perMm - (y + 0.5);
        return from < 0 === to < 0 ? [] : [(xMm + ((next.xMm - xMm) * from) / (from - to)) * perMm];
      })
      .sort((a, b) => a - b);
    for (let k = 0; k + 1 < crossings.length; k += 2) {
      const left = Math.round(crossings[k]!);
      const right = Math.round(crossings[k + 1]!);
      if (right > left) fills.push({ left, top: y, right, bottom: y + 1, rgb });
    }
  }
  return fills;
}

function cellFills(mark: Extract<Mark, { kind: 'cells' }>, perMm: number): PixelFill[] {
  const { rect, columns, rows, cells } = mark;
  const x = (column: number) => Math.round((rect.xMm + (rect.widthMm * column) / columns) * perMm);
  const y = (row: number) => Math.round((rect.yMm + (rect.heightMm * row) / rows) * perMm);
  const fills: PixelFill[] = [{ left: x(0), top: y(0), right: x(columns), bottom: y(rows), rgb: white }];
  for (let row = 0; row < rows; row += 1) {
    let column = 0;
    while (column < columns) {
      const from = column;
      while (column < columns && cells[row * columns + column] === true) column += 1;
      if (column > from)
        fills.push({ left: x(from), top: y(row), right: x(column), bottom: y(row + 1), rgb: black });
      else column += 1;
    }
  }
  return fills;
}
