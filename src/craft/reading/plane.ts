import { leastSquares } from './solve.js';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A point of the sheet (millimetres, as it should read) and where it is seen (pixels). */
export interface PointPair {
  readonly from: Point;
  readonly to: Point;
}

/** Row-major 3 × 3, acting on (x, y, 1). */
export type PlaneMap = readonly [number, number, number, number, number, number, number, number, number];

export function mapPoint(map: PlaneMap, { x, y }: Point): Point {
  const w = map[6] * x + map[7] * y + map[8];
  return { x: (map[0] * x + map[1] * y + map[2]) / w, y: (map[3] * x + map[4] * y + map[5]) / w };
}

export function chain(after: PlaneMap, before: PlaneMap): PlaneMap {
  const at = (i: number, j: number): number =>
    after[3 * i]! * before[j]! + after[3 * i + 1]! * before[3 + j]! + after[3 * i + 2]! * before[6 + j]!;
  return [at(0, 0), at(0, 1), at(0, 2), at(1, 0), at(1, 1), at(1, 2), at(2, 0), at(2, 1), at(2, 2)];
}

/** Determinant of the map's derivative at a point: negative where the sheet is seen mirrored. */
export function areaFactor(map: PlaneMap, point: Point): number {
  const w = map[6] * point.x + map[7] * point.y + map[8];
  const { x, y } = mapPoint(map, point);
  const dxdx = (map[0] - x * map[6]) / w;
  const dxdy = (map[1] - x * map[7]) / w;
  const dydx = (map[3] - y * map[6]) / w;
  const dydy = (map[4] - y * map[7]) / w;
  return dxdx * dydy - dxdy * dydx;
}

/** Affine map by least squares; null with fewer than three points or all on a line. */
export function fitAffine(pairs: readonly PointPair[]): PlaneMap | null {
  if (pairs.length < 3) return null;
  const from = normalising(pairs.map((pair) => pair.from));
  const rows = pairs.map((pair) => {
    const { x, y } = mapPoint(from, pair.from);
    return [x, y, 1];
  });
  const forX = leastSquares(
    rows,
    pairs.map((pair) => pair.to.x),
  );
  const forY = leastSquares(
    rows,
    pairs.map((pair) => pair.to.y),
  );
  if (!forX || !forY) return null;
  return chain([forX[0]!, forX[1]!, forX[2]!, forY[0]!, forY[1]!, forY[2]!, 0, 0, 1], from);
}

/**
 * Homography by the normalised direct linear transform (Hartley & Zisserman, Multiple View Geometry, 2nd ed.,
 * algorithm 4.2, with the inhomogeneous solution of 4.1.2), reweighted by the denominator so that what is made
 * small is the distance in the picture. Null with fewer than four points or when they do not span a plane.
 */
export function fitHomography(pairs: readonly PointPair[]): PlaneMap | null {
  if (pairs.length < 4) return null;
  const from = normalising(pairs.map((pair) => pair.from));
  const to = normalising(pairs.map((pair) => pair.to));
  const points = pairs.map((pair) => ({ from: mapPoint(from, pair.from), to: mapPoint(to, pair.to) }));
  let weights = points.map(() => 1);
  let map: PlaneMap | null = null;
  for (let round = 0; round < 5; round += 1) {
    const rows: number[][] = [];
    const values: number[] = [];
    points.forEach(({ from: { x, y }, to: { x: u, y: v } }, i) => {
      const w = weights[i]!;
      rows.push([x * w, y * w, w, 0, 0, 0, -u * x * w, -u * y * w]);
      values.push(u * w);
      rows.push([0, 0, 0, x * w, y * w, w, -v * x * w, -v * y * w]);
      values.push(v * w);
    });
    const h = leastSquares(rows, values);
    if (!h) return null;
    map = [h[0]!, h[1]!, h[2]!, h[3]!, h[4]!, h[5]!, h[6]!, h[7]!, 1];
    weights = points.map(({ from: { x, y } }) => 1 / Math.max(1e-3, Math.abs(h[6]! * x + h[7]! * y + 1)));
  }
  if (!map) return null;
  return chain(inverseOfNormalising(to), chain(map, from));
}

/** Root mean square distance, pixels, counting both coordinates as one distance. */
export function rmsDistance(map: PlaneMap, pairs: readonly PointPair[]): number {
  const sum = pairs.reduce((total, { from, to }) => {
    const seen = mapPoint(map, from);
    return total + (seen.x - to.x) ** 2 + (seen.y - to.y) ** 2;
  }, 0);
  return Math.sqrt(sum / Math.max(1, pairs.length));
}

function normalising(points: readonly Point[]): PlaneMap {
  const n = Math.max(1, points.length);
  const x = points.reduce((sum, point) => sum + point.x, 0) / n;
  const y = points.reduce((sum, point) => sum + point.y, 0) / n;
  const spread = points.reduce((sum, point) => sum + Math.hypot(point.x - x, point.y - y), 0) / n;
  const s = spread > 0 ? Math.SQRT2 / spread : 1;
  return [s, 0, -s * x, 0, s, -s * y, 0, 0, 1];
}

function inverseOfNormalising(map: PlaneMap): PlaneMap {
  return [1 / map[0], 0, -map[2] / map[0], 0, 1 / map[4], -map[5] / map[4], 0, 0, 1];
}
