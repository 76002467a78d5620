import type { Point } from './plane.js';

export interface GreyPicture {
  readonly width: number;
  readonly height: number;
  /** One byte a pixel, row by row. */
  readonly data: Uint8Array;
}

/** Cells along a marker's side; the rim is one cell thick. */
const cells = 6;
/** Least difference of black and white, 8-bit levels, that counts as an edge. */
const leastContrast = 16;

/**
 * Corners of a black square on white to a few hundredths of a pixel: the half-way crossing is found along normals
 * of each side, a line is laid through each side's crossings, and neighbouring lines are cut.
 *
 * Ink spread moves all four sides outward alike, so a marker's centre stays true even where its size does not.
 *
 * @param corners roughly, in order round the square. @returns null when a side shows no clear edge.
 */
export function refineSquare(picture: GreyPicture, corners: readonly Point[]): Point[] | null {
  let current = [...corners];
  for (let round = 0; round < 3; round += 1) {
    const lines = current.map((corner, i) => fitSide(picture, corner, current[(i + 1) % 4]!, current));
    if (lines.some((line) => line === null)) return null;
    const next = lines.map((line, i) => cut(lines[(i + 3) % 4]!, line!));
    if (next.some((point, i) => !point || distance(point, corners[i]!) > sideOf(corners) / 5)) return null;
    current = next as Point[];
  }
  return current;
}

/** Through `point`, along the unit vector `along`. */
interface Line {
  readonly point: Point;
  readonly along: Point;
}

function fitSide(picture: GreyPicture, a: Point, b: Point, square: readonly Point[]): Line | null {
  const length = distance(a, b);
  if (length < 8) return null;
  const along = { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
  const centre = mean(square);
  let out = { x: -along.y, y: along.x };
  if ((centre.x - a.x) * out.x + (centre.y - a.y) * out.y > 0) out = { x: -out.x, y: -out.y };
  const reach = Math.max(1.5, (0.75 * length) / cells);
  const count = Math.min(48, Math.max(8, Math.round(length)));
  const crossings: Point[] = [];
  for (let i = 0; i < count; i += 1) {
    const t = length * (0.1 + (0.8 * (i + 0.5)) / count);
    const foot = { x: a.x + along.x * t, y: a.y + along.y * t };
    const offset = crossing(picture, foot, out, reach);
    if (offset !== null) crossings.push({ x: foot.x + out.x * offset, y: foot.y + out.y * offset });
  }
  if (crossings.length < count * 0.6) return null;
  return robustLine(crossings);
}

/** Where the profile passes half-way between dark inside and light outside, pixels outward from the foot. */
function crossing(picture: GreyPicture, foot: Point, out: Point, reach: number): number | null {
  const steps = Math.max(6, Math.ceil(reach * 2)) * 4;
  const step = (2 * reach) / steps;
  const profile: number[] = [];
  for (let i = 0; i <= steps; i += 1) {
    const d = -reach + i * step;
    profile.push(greyAt(picture, foot.x + out.x * d, foot.y + out.y * d));
  }
  const end = Math.max(2, Math.round(steps / 6));
  const dark = average(profile.slice(0, end));
  const light = average(profile.slice(-end));
  if (light - dark < leastContrast) return null;
  const half = (dark + light) / 2;
  let best: number | null = null;
  for (let i = 0; i < steps; i += 1) {
    const here = profile[i]! - half;
    const next = profile[i + 1]! - half;
    if (here > 0 || next <= 0) continue;
    const d = -reach + (i + here / (here - next)) * step;
    if (best === null || Math.abs(d) < Math.abs(best)) best = d;
  }
  if (best === null) return null;
  // Between pixels the half-way point errs by up to 0.08 px for a sharp edge; the dark share of the profile does
  // not, since each pixel is already the mean of what it covers.
  const darkShare = profile.map((grey) => Math.min(1, Math.max(0, (light - grey) / (light - dark))));
  const ends = (darkShare[0]! + darkShare.at(-1)!) / 2;
  const byArea = -reach + (average(darkShare) * darkShare.length - ends) * step;
  return Math.abs(byArea - best) < 0.3 ? byArea : best;
}

function robustLine(points: readonly Point[]): Line | null {
  let kept = [...points];
  for (let round = 0; round < 3; round += 1) {
    const line = totalLeastSquares(kept);
    const offsets = kept.map((point) => Math.abs(fromLine(line, point)));
    const limit = Math.max(0.1, 3 * 1.4826 * (offsets.toSorted((p, q) => p - q)[offsets.length >> 1] ?? 0));
    const closer = kept.filter((_, i) => offsets[i]! <= limit);
    if (closer.length < 5) return null;
    if (closer.length === kept.length) return line;
    kept = closer;
  }
  return totalLeastSquares(kept);
}

function totalLeastSquares(points: readonly Point[]): Line {
  const point = mean(points);
  let xx = 0;
  let xy = 0;
  let yy = 0;
  for (const { x, y } of points) {
    xx += (x - point.x) ** 2;
    xy += (x - point.x) * (y - point.y);
    yy += (y - point.y) ** 2;
  }
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  return { point, along: { x: Math.cos(angle), y: Math.sin(angle) } };
}

const fromLine = ({ point, along }: Line, { x, y }: Point): number =>
  (x - point.x) * along.y - (y - point.y) * along.x;

function cut(first: Line, second: Line): Point | null {
  const cross = first.along.x * second.along.y - first.along.y * second.along.x;
  if (Math.abs(cross) < 0.2) return null;
  const dx = second.point.x - first.point.x;
  const dy = second.point.y - first.point.y;
  const t = (dx * second.along.y - dy * second.along.x) / cross;
  return { x: first.point.x + first.along.x * t, y: first.point.y + first.along.y * t };
}

/** Bilinear; pixel centres at .5; the edge pixel repeats outside. */
export function greyAt({ width, height, data }: GreyPicture, x: number, y: number): number {
  const px = Math.min(Math.max(x - 0.5, 0), width - 1);
  const py = Math.min(Math.max(y - 0.5, 0), height - 1);
  const x0 = Math.floor(px);
  const y0 = Math.floor(py);
  const x1 = Math.min(x0 + 1, width - 1);
  const y1 = Math.min(y0 + 1, height - 1);
  const fx = px - x0;
  const fy = py - y0;
  const top = data[y0 * width + x0]! * (1 - fx) + data[y0 * width + x1]! * fx;
  const bottom = data[y1 * width + x0]! * (1 - fx) + data[y1 * width + x1]! * fx;
  return top * (1 - fy) + bottom * fy;
}

const distance = (a: Point, b: Point): number => Math.hypot(a.x - b.x, a.y - b.y);
const average = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
const mean = (points: readonly Point[]): Point => ({
  x: average(points.map((point) => point.x)),
  y: average(points.map((point) => point.y)),
});
const sideOf = (corners: readonly Point[]): number => distance(corners[0]!, corners[1]!);
