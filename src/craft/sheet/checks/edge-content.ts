import { distanceInsideMm, type FlatOutline } from '#craft/blank';
import { type Side, sides } from './cover.js';
import type { PiecePicture } from './piece-picture.js';
import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/**
 * Content in the unsafe zone, judged by what a pixel can tell and no more.
 *
 * Lettering and figures stand out from a calm ground; a photograph has detail everywhere, and no count of its pixels
 * tells a face from foliage. So the ground between the edge and the safe line must be calm (flat, or a soft gradient,
 * on at least 60 % of it); otherwise nothing is said, rather than something that would be said of every photograph. On a
 * calm ground whatever has a strong contour counts as content, taken together where it hangs together. What ends
 * before the edge but beyond the safe line is in danger (a blank a little smaller, a paper laid a little off, cuts
 * it). What runs through the edge may be meant, a stripe, or be cut lettering: that is told as a note.
 *
 * Thresholds are ours, set on drawn lettering, gradients and photographs (see the test), in sRGB code values.
 */
const flatRange = 6;
const contourRange = 40;
const calmShare = 0.6;
/** Things whose longer side is shorter are dust, scratches or noise; lettering to be read is larger. */
const leastThingMm = 1;
/** Distances are said to a tenth; one that would be said as the wanted one is not too close. */
const saidToMm = 0.05;
/** A safe margin under so many cells is too narrow to be judged from the small picture. */
const leastRingCells = 3;

export function checkEdgeContent(
  { blank, outline }: SheetUnderCheck,
  piece: PiecePicture | null,
): SheetCheck[] {
  if (piece === null || blank.safeMm === 0) return [];
  if (blank.safeMm < leastRingCells * piece.stepMm) return [];
  const ranges = localRanges(piece);
  const depths = edgeDepths(piece, outline, blank.safeMm);
  if (!ringIsCalm(ranges, depths, blank.safeMm)) return [];

  const things = contours(piece, outline, ranges, depths);
  const close = things.filter((thing) => thing.depthMm > 0 && thing.depthMm < blank.safeMm - saidToMm);
  const runningOff = things.filter((thing) => thing.depthMm === 0);
  const checks: SheetCheck[] = [];
  if (close.length > 0) {
    const nearest = Math.min(...close.map((thing) => thing.depthMm));
    checks.push({
      code: 'edge.too-close',
      level: 'look',
      title: 'Something stands close to the edge',
      detail:
        `At the ${saySides(close)} it comes within ${nearest.toFixed(1)} mm of the edge; ` +
        `this blank wants ${blank.safeMm} mm, since a piece laid a little off would cut it.`,
      remedy: `Keep lettering and figures ${blank.safeMm} mm from the edge: make the picture smaller or move it.`,
      value: nearest,
      unit: 'mm',
    });
  }
  if (runningOff.length > 0) {
    checks.push({
      code: 'edge.runs-off',
      level: 'note',
      title: 'Part of the picture runs off the edge',
      detail: `It does so at the ${saySides(runningOff)}. Stripes and grounds may; lettering would be cut.`,
      remedy: 'Look at the edge in the preview of the pressed piece.',
      value: null,
      unit: null,
    });
  }
  return checks;
}

/** Largest difference of any channel within the 3 × 3 cells round each; −1 where one of them bears no artwork. */
function localRanges({ columns, rows, rgb, alpha }: PiecePicture): Int16Array {
  const ranges = new Int16Array(columns * rows).fill(-1);
  for (let row = 1; row < rows - 1; row += 1) {
    for (let column = 1; column < columns - 1; column += 1) {
      ranges[row * columns + column] = rangeAt(row * columns + column, columns, rgb, alpha);
    }
  }
  return ranges;
}

function rangeAt(cell: number, columns: number, rgb: Uint8ClampedArray, alpha: Int16Array): number {
  let widest = 0;
  for (let channel = 0; channel < 3; channel += 1) {
    let low = 255;
    let high = 0;
    for (let up = -columns; up <= columns; up += columns) {
      for (let neighbour = cell + up - 1; neighbour <= cell + up + 1; neighbour += 1) {
        if (alpha[neighbour]! < 0) return -1;
        const value = rgb[3 * neighbour + channel]!;
        if (value < low) low = value;
        if (value > high) high = value;
      }
    }
    widest = Math.max(widest, high - low);
  }
  return widest;
}

/** Distance of each cell inside the edge, capped where it is clearly beyond `safeMm`; negative outside. */
function edgeDepths(
  { columns, rows, xMm, yMm }: PiecePicture,
  outline: FlatOutline,
  safeMm: number,
): Float32Array {
  const depths = new Float32Array(columns * rows);
  const a = outline.widthMm / 2;
  const b = outline.heightMm / 2;
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const x = xMm(column);
      const y = yMm(row);
      // An ellipse shrunk by the factor ρ lies at least (1 − ρ) · min(a, b) inside: spares the exact foot point.
      const least = outline.form === 'ellipse' ? (1 - Math.hypot(x / a, y / b)) * Math.min(a, b) : 0;
      depths[row * columns + column] = least > safeMm ? least : distanceInsideMm(outline, x, y);
    }
  }
  return depths;
}

function ringIsCalm(ranges: Int16Array, depths: Float32Array, safeMm: number): boolean {
  let ring = 0;
  let flat = 0;
  ranges.forEach((range, cell) => {
    const depth = depths[cell]!;
    if (depth < 0 || depth >= safeMm) return;
    ring += 1;
    // Bare blank is as calm as it gets.
    if (range <= flatRange) flat += 1;
  });
  return ring > 0 && flat / ring >= calmShare;
}

/** One thing at one side of the face. */
interface Thing {
  /** Nearest to that side's edge, one cell added since a contour is seen a cell early; 0: it runs through it. */
  readonly depthMm: number;
  readonly side: Side;
}

/**
 * Contours that hang together (eight neighbours), each told once for every side it comes near: a flower may run off at
 * its stem and still come too close with its tip.
 */
function contours(
  piece: PiecePicture,
  outline: FlatOutline,
  ranges: Int16Array,
  depths: Float32Array,
): Thing[] {
  const { columns, stepMm } = piece;
  const todo = ranges.map((range, cell) => (range >= contourRange && depths[cell]! >= 0 ? 1 : 0));
  const things: Thing[] = [];
  for (let start = 0; start < todo.length; start += 1) {
    if (todo[start] !== 1) continue;
    const nearest = new Map<Side, number>();
    const stack = [start];
    todo[start] = 0;
    let [left, right, top, bottom] = [columns, 0, todo.length, 0];
    for (let cell = stack.pop(); cell !== undefined; cell = stack.pop()) {
      const [column, row] = [cell % columns, Math.floor(cell / columns)];
      [left, right] = [Math.min(left, column), Math.max(right, column)];
      [top, bottom] = [Math.min(top, row), Math.max(bottom, row)];
      const side = nearestSide(outline, piece.xMm(column), piece.yMm(row));
      nearest.set(side, Math.min(nearest.get(side) ?? Number.POSITIVE_INFINITY, depths[cell]!));
      for (const next of neighbours(cell, columns)) {
        if (todo[next] === 1) {
          todo[next] = 0;
          stack.push(next);
        }
      }
    }
    // A contour's halo adds a cell at either end.
    if ((Math.max(right - left, bottom - top) - 1) * stepMm < leastThingMm) continue;
    for (const [side, depth] of nearest) {
      things.push({ side, depthMm: depth < 1.5 * stepMm ? 0 : depth + stepMm });
    }
  }
  return things;
}

function neighbours(cell: number, columns: number): number[] {
  const above = cell - columns;
  const below = cell + columns;
  return [above - 1, above, above + 1, cell - 1, cell + 1, below - 1, below, below + 1];
}

/** Of a rectangle the edge that is nearest; of an ellipse the quarter, between the diagonals of its box. */
function nearestSide({ widthMm, heightMm, form }: FlatOutline, xMm: number, yMm: number): Side {
  const across =
    form === 'ellipse'
      ? Math.abs(xMm) / widthMm >= Math.abs(yMm) / heightMm
      : widthMm / 2 - Math.abs(xMm) <= heightMm / 2 - Math.abs(yMm);
  if (across) return xMm < 0 ? 'left' : 'right';
  return yMm < 0 ? 'top' : 'bottom';
}

function saySides(things: readonly Thing[]): string {
  const found = sides.filter((side) => things.some((thing) => thing.side === side));
  return found.length === 1 ? found[0]! : `${found.slice(0, -1).join(', ')} and ${found.at(-1)}`;
}
