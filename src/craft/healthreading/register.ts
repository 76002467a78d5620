import { median } from '#craft/numerics';
import { lightOfPixel, type SampledPicture } from '#craft/patchreading';
import { fitAffine, fitHomography, mapPoint, type PlaneMap, type PointPair } from '#craft/reading';
import type { RegistrationMark } from '#craft/testsheet';
import { scaleAt } from './channel.js';
import type { ScanLengths } from './types.js';

/** A square is looked for so far round its place; white lies round it at least so wide. */
const roundMm = 1.4;
const leastContrast = 0.3;
/** A square further from what the others say than this is none (dust, a crease). */
const strayMm = 0.25;
const leastFound = 6;

export interface Registered {
  /** Sheet millimetres to pixels, as the squares lie. */
  readonly toPicture: PlaneMap;
  readonly lengths: ScanLengths;
  readonly found: number;
}

/** The sheet laid by its squares instead of by its corner markers; null when fewer than six are found. */
export function register(
  picture: SampledPicture,
  about: PlaneMap,
  squares: readonly RegistrationMark[],
): Registered | null {
  let pairs = squares.flatMap((square): PointPair[] => {
    const to = middleOf(picture, about, square);
    return to ? [{ from: { x: square.xMm, y: square.yMm }, to }] : [];
  });
  for (let round = 0; round < 2; round += 1) {
    const map = pairs.length >= leastFound ? fitHomography(pairs) : null;
    if (!map) return null;
    const { across } = scaleAt(map, pairs[0]!.from);
    const off = pairs.map(({ from, to }) => {
      const laid = mapPoint(map, from);
      return Math.hypot(laid.x - to.x, laid.y - to.y) / across;
    });
    const far = Math.max(4 * median(off), 0.05);
    pairs = pairs.filter((_, i) => off[i]! <= Math.min(far, strayMm));
  }
  const toPicture = pairs.length >= leastFound ? fitHomography(pairs) : null;
  const flat = fitAffine(pairs);
  if (!toPicture || !flat) return null;
  return { toPicture, lengths: lengthsOf(flat, pairs), found: pairs.length };
}

/** Lengths by the plane without perspective, as a scanner sees it, and how well their ratio is known. */
function lengthsOf(flat: PlaneMap, pairs: readonly PointPair[]): ScanLengths {
  const acrossPixelsPerMm = Math.hypot(flat[0], flat[3]);
  const alongPixelsPerMm = Math.hypot(flat[1], flat[4]);
  const rest = pairs.reduce((sum, { from, to }) => {
    const laid = mapPoint(flat, from);
    return sum + (laid.x - to.x) ** 2 + (laid.y - to.y) ** 2;
  }, 0);
  // Two coordinates a square, six unknowns.
  const sdPixels = Math.sqrt(rest / Math.max(1, 2 * pairs.length - 6));
  const spread = (pick: (pair: PointPair) => number): number => {
    const middle = pairs.reduce((sum, pair) => sum + pick(pair), 0) / pairs.length;
    return Math.sqrt(pairs.reduce((sum, pair) => sum + (pick(pair) - middle) ** 2, 0));
  };
  const ratioSd = Math.hypot(
    sdPixels / (acrossPixelsPerMm * spread(({ from }) => from.x)),
    sdPixels / (alongPixelsPerMm * spread(({ from }) => from.y)),
  );
  const turnDegrees = (Math.atan2(-flat[1], flat[4]) * 180) / Math.PI;
  return { acrossPixelsPerMm, alongPixelsPerMm, ratioSd, turnDegrees };
}

/** Ink-weighted middle of a black square standing in white; null where there is none. */
function middleOf(
  picture: SampledPicture,
  about: PlaneMap,
  { xMm, yMm, sideMm }: RegistrationMark,
): { x: number; y: number } | null {
  let place = mapPoint(about, { x: xMm, y: yMm });
  const scale = scaleAt(about, { x: xMm, y: yMm });
  const perMm = Math.sqrt(scale.across * scale.along);
  // A turned square reaches √2 as far; the second round looks closer, from the middle found.
  for (const half of [sideMm / 2 + roundMm, 0.72 * sideMm + 0.35]) {
    const reach = half * perMm;
    const [left, right] = [Math.floor(place.x - reach), Math.ceil(place.x + reach)];
    const [top, bottom] = [Math.floor(place.y - reach), Math.ceil(place.y + reach)];
    if (left < 0 || top < 0 || right > picture.width || bottom > picture.height) return null;
    const lights: number[] = [];
    for (let y = top; y < bottom; y += 1) {
      for (let x = left; x < right; x += 1) lights.push(lightOfPixel(picture, x, y));
    }
    const sorted = lights.toSorted((a, b) => a - b);
    const white = sorted[Math.floor(0.85 * sorted.length)]!;
    const black = sorted[Math.floor(0.05 * sorted.length)]!;
    if (!(white - black > leastContrast * white)) return null;
    let [mass, sumX, sumY] = [0, 0, 0];
    lights.forEach((light, i) => {
      const ink = Math.min(1, (white - light) / (white - black));
      if (ink < 0.1) return;
      mass += ink;
      sumX += ink * (left + (i % (right - left)) + 0.5);
      sumY += ink * (top + Math.floor(i / (right - left)) + 0.5);
    });
    const side = Math.sqrt(mass) / perMm;
    if (side < 0.6 * sideMm || side > 1.5 * sideMm) return null;
    place = { x: sumX / mass, y: sumY / mass };
  }
  return place;
}
