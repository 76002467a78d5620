import { groundAt, type LinearRgb, luminance, type SampledPicture } from '#craft/patchreading';
import type { Point, SheetPose } from '#craft/reading';
import type { CouponLayout } from '#craft/testsheet';
import { solveDamped } from './solve-damped.js';

/** The bare ground of a coupon as the reader's light falls on it. */
export interface GroundPlane {
  readonly rgb: LinearRgb;
  /** Scatter of its places about the plane. */
  readonly sd: LinearRgb;
  at(place: Point): LinearRgb;
  readonly lightRatio: number;
  readonly isClipped: boolean;
}

/** Fewer bare places than this are no ground to go by. */
const leastPlaces = 20;
/** Places so much darker than the middle one show a thread, a cut edge or the lid. */
const strayShare = 0.08;

/** A plane through the light of the bare places, channel by channel; strays left out. Null when there are too few. */
export function groundPlane(
  picture: SampledPicture,
  { ground, widthMm, heightMm }: CouponLayout,
  pose: SheetPose,
): GroundPlane | null {
  const seen = ground.places.flatMap(({ xMm: x, yMm: y }) => {
    const spot = groundAt(picture, pose, { x, y }, ground.reachMm);
    return spot ? [{ x, y, ...spot }] : [];
  });
  if (seen.length < leastPlaces) return null;
  const levels = seen.map(({ rgb }) => luminance(rgb)).sort((a, b) => a - b);
  const middle = levels[levels.length >> 1]!;
  const kept = seen.filter(({ rgb }) => Math.abs(luminance(rgb) / middle - 1) < strayShare);
  if (kept.length < leastPlaces) return null;
  const rowOf = ({ x, y }: Point): number[] => [1, (2 * x) / widthMm - 1, (2 * y) / heightMm - 1];
  const rows = kept.map(rowOf);
  const planes = [0, 1, 2].map((c) => {
    const normal = new Float64Array(9);
    const right = new Float64Array(3);
    rows.forEach((row, i) => {
      for (let a = 0; a < 3; a += 1) {
        right[a]! += row[a]! * kept[i]!.rgb[c]!;
        for (let b = 0; b <= a; b += 1) normal[3 * a + b]! += row[a]! * row[b]!;
      }
    });
    return solveDamped(normal, right, 0);
  });
  if (planes.some((plane) => plane === null)) return null;
  const at = (place: Point): LinearRgb => {
    const row = rowOf(place);
    return planes.map((plane) =>
      Math.max(
        1e-4,
        row.reduce((sum, v, a) => sum + v * plane![a]!, 0),
      ),
    ) as unknown as LinearRgb;
  };
  const sd = [0, 1, 2].map((c) => {
    const squares = kept.reduce((sum, one) => sum + (one.rgb[c]! - at(one)[c]!) ** 2, 0);
    return Math.sqrt(squares / Math.max(1, kept.length - 3));
  }) as unknown as LinearRgb;
  const ends = [
    at({ x: 0, y: 0 }),
    at({ x: widthMm, y: 0 }),
    at({ x: widthMm, y: heightMm }),
    at({ x: 0, y: heightMm }),
  ];
  const lights = ends.map(luminance);
  return {
    rgb: planes.map((plane) => plane![0]!) as unknown as LinearRgb,
    sd,
    at,
    lightRatio: Math.max(...lights) / Math.min(...lights),
    isClipped: kept.filter(({ isClipped }) => isClipped).length > 0.3 * kept.length,
  };
}
