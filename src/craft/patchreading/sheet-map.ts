import { choleskyInPlace, solveCholesky } from '#craft/numerics';
import { mapPoint, type PlaneMap, type Point } from '#craft/reading';

/** A place of the sheet (mm) and how far from there, in the sheet's own millimetres, it seems to have moved. */
export interface Shift {
  readonly at: Point;
  readonly by: Point;
}

/** Row-major derivative of the picture by the sheet, pixels a millimetre. */
export type Derivative = readonly [number, number, number, number];

/** Of a plane map, by central differences over a tenth of a millimetre. */
export function derivativeAt(map: PlaneMap, { x, y }: Point): Derivative {
  const h = 0.05;
  const right = mapPoint(map, { x: x + h, y });
  const left = mapPoint(map, { x: x - h, y });
  const below = mapPoint(map, { x, y: y + h });
  const above = mapPoint(map, { x, y: y - h });
  return [
    (right.x - left.x) / (2 * h),
    (below.x - above.x) / (2 * h),
    (right.y - left.y) / (2 * h),
    (below.y - above.y) / (2 * h),
  ];
}

export const pixelsPerMm = (d: Derivative): number => Math.sqrt(Math.abs(d[0] * d[3] - d[1] * d[2]));

/** What a distance in the picture is on the sheet. */
export function onSheet(d: Derivative, pixels: Point): Point {
  const determinant = d[0] * d[3] - d[1] * d[2];
  return {
    x: (d[3] * pixels.x - d[1] * pixels.y) / determinant,
    y: (d[0] * pixels.y - d[2] * pixels.x) / determinant,
  };
}

/**
 * The movement anywhere from movements known here and there: local linear regression (Cleveland, J. Am. Stat. Assoc.
 * 74, 1979) with Gaussian weights of width `reachMm`, the slope held back a little where few places tell of it.
 */
export function shiftAt(known: readonly Shift[], at: Point, reachMm: number): Point {
  const normal = new Float64Array(9);
  const forX = new Float64Array(3);
  const forY = new Float64Array(3);
  let weights = 0;
  for (const { at: place, by } of known) {
    const x = (place.x - at.x) / reachMm;
    const y = (place.y - at.y) / reachMm;
    const w = Math.exp(-0.5 * (x * x + y * y)) + 1e-4 / (1 + x * x + y * y);
    const row = [1, x, y];
    weights += w;
    for (let i = 0; i < 3; i += 1) {
      for (let j = 0; j <= i; j += 1) normal[3 * i + j]! += w * row[i]! * row[j]!;
      forX[i]! += w * row[i]! * by.x;
      forY[i]! += w * row[i]! * by.y;
    }
  }
  if (weights === 0) return { x: 0, y: 0 };
  normal[4]! += 0.1 * weights;
  normal[8]! += 0.1 * weights;
  if (!choleskyInPlace(normal, 3)) return { x: 0, y: 0 };
  return { x: solveCholesky(normal, 3, forX)[0]!, y: solveCholesky(normal, 3, forY)[0]! };
}
