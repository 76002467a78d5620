import type { Mark, PlannedPiece, RectMm } from './plan.js';
import { grownRect, rectContains, rectsOverlap } from './rects.js';

/** Room between the bleed and its marks, so that a cut a little off never takes ink along. */
const clearMm = 0.75;
const longestMm = 5;
const shortestMm = 1;
const thicknessMm = 0.25;

/**
 * Thin lines outside the bleed that point at the trim: two at each corner of a rectangle, one at each end of an
 * ellipse's axes. A line is shortened where a neighbour's bleed or the end of the area is near, and left out below
 * 1 mm: the picture itself always comes first.
 *
 * @param area where lines may lie; nothing else is there but the pieces.
 */
export function trimLines(pieces: readonly PlannedPiece[], area: RectMm): Mark[] {
  const keepOut = pieces.map((piece) => grownRect(piece.bleed, clearMm - 1e-6));
  const marks: Mark[] = [];
  for (const piece of pieces) {
    for (const line of linesOf(piece)) {
      const rect = longestFree(line, area, keepOut);
      if (rect) marks.push({ kind: 'fill', rect, rgb: [0, 0, 0], role: 'trim' });
    }
  }
  return marks;
}

/** A line that leaves the bleed at (xMm, yMm) in one of the four directions. */
interface Line {
  readonly xMm: number;
  readonly yMm: number;
  readonly dx: -1 | 0 | 1;
  readonly dy: -1 | 0 | 1;
}

function linesOf({ trim, bleed, trimForm }: PlannedPiece): Line[] {
  const left = bleed.xMm - clearMm;
  const right = bleed.xMm + bleed.widthMm + clearMm;
  const top = bleed.yMm - clearMm;
  const bottom = bleed.yMm + bleed.heightMm + clearMm;
  const xs = trimForm === 'ellipse' ? [trim.xMm + trim.widthMm / 2] : [trim.xMm, trim.xMm + trim.widthMm];
  const ys = trimForm === 'ellipse' ? [trim.yMm + trim.heightMm / 2] : [trim.yMm, trim.yMm + trim.heightMm];
  return [
    ...xs.flatMap((xMm): Line[] => [
      { xMm, yMm: top, dx: 0, dy: -1 },
      { xMm, yMm: bottom, dx: 0, dy: 1 },
    ]),
    ...ys.flatMap((yMm): Line[] => [
      { xMm: left, yMm, dx: -1, dy: 0 },
      { xMm: right, yMm, dx: 1, dy: 0 },
    ]),
  ];
}

function longestFree(line: Line, area: RectMm, keepOut: readonly RectMm[]): RectMm | null {
  for (let lengthMm = longestMm; lengthMm >= shortestMm; lengthMm -= 0.5) {
    const rect = lineRect(line, lengthMm);
    if (rectContains(area, rect) && !keepOut.some((other) => rectsOverlap(rect, other))) return rect;
  }
  return null;
}

function lineRect({ xMm, yMm, dx, dy }: Line, lengthMm: number): RectMm {
  const half = thicknessMm / 2;
  return dx === 0
    ? { xMm: xMm - half, yMm: dy < 0 ? yMm - lengthMm : yMm, widthMm: thicknessMm, heightMm: lengthMm }
    : { xMm: dx < 0 ? xMm - lengthMm : xMm, yMm: yMm - half, widthMm: lengthMm, heightMm: thicknessMm };
}
