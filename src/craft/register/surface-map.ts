import { quickSquares } from './quick-squares.js';
import type { Place, SurfaceMap } from './types.js';

/** A place of the aligned picture and where it was seen in the photo. */
export interface MatchedPlace {
  readonly from: Place;
  readonly to: Place;
  /** How far it is believed, 1 when absent. */
  readonly weight?: number;
}

/** Where places of the aligned picture come to lie in the photo. */
export function placeInPhoto(map: SurfaceMap, x: number, y: number): Place {
  if (map.kind === 'flat') {
    const [a, b, c, d, e, f, g, h, i] = map.matrix as Nine;
    const w = g * x + h * y + i;
    return { x: (a * x + b * y + c) / w, y: (d * x + e * y + f) / w };
  }
  const p = map.camera;
  const angle = map.radiansAcross * (x / map.widthPixels - 0.5);
  const s = Math.sin(angle);
  const v = 1 - Math.cos(angle);
  const w = p[8]! * s + p[9]! * v + p[10]! * y + p[11]!;
  return {
    x: (p[0]! * s + p[1]! * v + p[2]! * y + p[3]!) / w,
    y: (p[4]! * s + p[5]! * v + p[6]! * y + p[7]!) / w,
  };
}
type Nine = readonly [number, number, number, number, number, number, number, number, number];

/** Area of the photo that one pixel of the pair takes there, signed: below zero where the surface is seen from behind. */
export function stretchAt(map: SurfaceMap, x: number, y: number): number {
  const o = placeInPhoto(map, x, y);
  const right = placeInPhoto(map, x + 1, y);
  const down = placeInPhoto(map, x, y + 1);
  return (right.x - o.x) * (down.y - o.y) - (right.y - o.y) * (down.x - o.x);
}

/** The same map for an aligned picture `pair` times as large, and a photo `photo` times as large. */
export function resizedMap(map: SurfaceMap, pair: number, photo: number): SurfaceMap {
  if (map.kind === 'flat') {
    return {
      kind: 'flat',
      matrix: map.matrix.map((v, i) => (i % 3 === 2 ? v : v / pair) * (i < 6 ? photo : 1)),
    };
  }
  return {
    ...map,
    widthPixels: map.widthPixels * pair,
    camera: map.camera.map((v, i) => (i % 4 === 2 ? v / pair : v) * (i < 8 ? photo : 1)),
  };
}

/**
 * A projective map of a plane (8 unknowns) by the direct linear transform, rows reweighted by their depth so that
 * distances in the photo are what is made small (Hartley & Zisserman, Multiple View Geometry, 2nd ed., 4.1 and 7.1).
 * @returns null when the places do not determine it
 */
export function fitFlat(places: readonly MatchedPlace[]): SurfaceMap | null {
  const from = framed(places.map((p) => p.from));
  const fitted = fitProjection(
    places.map((p) => [(p.from.x - from.x) / from.size, (p.from.y - from.y) / from.size, 1]),
    places,
  );
  if (!fitted) return null;
  const matrix = [0, 3, 6].flatMap((at) => {
    const [a, b, c] = [fitted[at]! / from.size, fitted[at + 1]! / from.size, fitted[at + 2]!];
    return [a, b, c - a * from.x - b * from.y];
  });
  return { kind: 'flat', matrix };
}

/**
 * A cylinder seen by any pinhole camera, its angle across given: a projective camera of four coordinates, linear
 * once the angle is known (11 unknowns; Hartley & Zisserman, 7.1).
 */
export function fitCylinder(
  places: readonly MatchedPlace[],
  radiansAcross: number,
  widthPixels: number,
): SurfaceMap | null {
  const from = framed(places.map((p) => p.from));
  const fitted = fitProjection(
    places.map(({ from: { x, y } }) => {
      const angle = radiansAcross * (x / widthPixels - 0.5);
      return [Math.sin(angle), 1 - Math.cos(angle), (y - from.y) / from.size, 1];
    }),
    places,
  );
  if (!fitted) return null;
  const camera = [0, 4, 8].flatMap((at) => {
    const slope = fitted[at + 2]! / from.size;
    return [fitted[at]!, fitted[at + 1]!, slope, fitted[at + 3]! - slope * from.y];
  });
  return { kind: 'cylinder', radiansAcross, widthPixels, camera };
}

/** The same with the angle searched for between `least` and `most` by golden section on the summed squares. */
export function fitCylinderAngle(
  places: readonly MatchedPlace[],
  widthPixels: number,
  [least, most]: readonly [number, number],
): SurfaceMap | null {
  const costOf = (angle: number): number => {
    const map = fitCylinder(places, angle, widthPixels);
    if (!map) return Number.POSITIVE_INFINITY;
    return places.reduce((sum, p) => sum + (p.weight ?? 1) * Math.min(1e4, missOf(map, p) ** 2), 0);
  };
  const ratio = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [least, most];
  let [a, b] = [high - ratio * (high - low), low + ratio * (high - low)];
  let [costA, costB] = [costOf(a), costOf(b)];
  for (let i = 0; i < 14 && high - low > 0.002; i += 1) {
    if (costA < costB) {
      [high, b, costB] = [b, a, costA];
      a = high - ratio * (high - low);
      costA = costOf(a);
    } else {
      [low, a, costA] = [a, b, costB];
      b = low + ratio * (high - low);
      costB = costOf(b);
    }
  }
  return fitCylinder(places, (low + high) / 2, widthPixels);
}

/** How far in the photo a match lies from where the map puts it. */
export function missOf(map: SurfaceMap, { from, to }: MatchedPlace): number {
  const at = placeInPhoto(map, from.x, from.y);
  return Math.hypot(at.x - to.x, at.y - to.y);
}

interface Frame extends Place {
  readonly size: number;
}

function framed(places: readonly Place[]): Frame {
  const n = Math.max(1, places.length);
  const x = places.reduce((sum, p) => sum + p.x, 0) / n;
  const y = places.reduce((sum, p) => sum + p.y, 0) / n;
  const spread = places.reduce((sum, p) => sum + (p.x - x) ** 2 + (p.y - y) ** 2, 0) / n;
  return { x, y, size: Math.sqrt(spread) || 1 };
}

/** Three rows over the basis, the last entry 1; basis rows end in 1. */
function fitProjection(
  basis: readonly (readonly number[])[],
  places: readonly MatchedPlace[],
): number[] | null {
  const count = basis[0]?.length ?? 0;
  const to = framed(places.map((p) => p.to));
  let depths = places.map(() => 1);
  let fitted: number[] | null = null;
  for (let round = 0; round < 2; round += 1) {
    const rows: number[][] = [];
    const values: number[] = [];
    const weights: number[] = [];
    places.forEach((place, i) => {
      const b = basis[i]!;
      const none = b.map(() => 0);
      const X = (place.to.x - to.x) / to.size;
      const Y = (place.to.y - to.y) / to.size;
      rows.push([...b, ...none, ...b.slice(0, -1).map((v) => -v * X)]);
      rows.push([...none, ...b, ...b.slice(0, -1).map((v) => -v * Y)]);
      values.push(X, Y);
      const weight = (place.weight ?? 1) / depths[i]! ** 2;
      weights.push(weight, weight);
    });
    const solved = quickSquares(rows, values, weights);
    if (!solved) return fitted;
    const own = [...solved, 1];
    fitted = own;
    depths = basis.map((b) =>
      Math.max(0.05, Math.abs(b.reduce((sum, v, k) => sum + v * own[2 * count + k]!, 0))),
    );
  }
  if (!fitted) return null;
  const last = fitted.slice(2 * count);
  return [
    ...fitted.slice(0, count).map((v, k) => v * to.size + last[k]! * to.x),
    ...fitted.slice(count, 2 * count).map((v, k) => v * to.size + last[k]! * to.y),
    ...last,
  ];
}
