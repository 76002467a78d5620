import { choleskyInPlace, solveCholesky } from '#craft/numerics';
import type { Place, PlaceValue } from './types.js';

/** Standard deviations of what a pattern leaves that are tried, K. */
const sizesK = [0, 1, 2, 4, 8];
/** Neighbouring places of a platen are alike over about so much of its shorter side. Our choice. */
const likeOver = 0.35;

/**
 * What readings say beyond the pattern fitted to them, smoothed: a Gaussian process of a size chosen by its likelihood
 * (Rasmussen & Williams, Gaussian Processes for Machine Learning, 2006, eqs 2.25 and 2.30). Nothing where chance explains it.
 */
export function smoothedRemainder(
  places: readonly PlaceValue[],
  remainder: readonly number[],
  face: { readonly widthMm: number; readonly depthMm: number },
): (place: Place) => number {
  const n = places.length;
  const reach = likeOver * Math.min(face.widthMm, face.depthMm);
  const like = (a: Place, b: Place): number => {
    const far = Math.hypot((a.across - b.across) * face.widthMm, (a.along - b.along) * face.depthMm);
    return Math.exp(-0.5 * (far / reach) ** 2);
  };
  let best: { evidence: number; weights: Float64Array; size: number } = {
    evidence: Number.NEGATIVE_INFINITY,
    weights: new Float64Array(n),
    size: 0,
  };
  for (const size of sizesK) {
    const a = new Float64Array(n * n);
    for (let i = 0; i < n; i += 1)
      for (let j = 0; j <= i; j += 1)
        a[i * n + j] = size ** 2 * like(places[i]!, places[j]!) + (i === j ? places[i]!.sd ** 2 : 0);
    if (!choleskyInPlace(a, n)) continue;
    const y = Float64Array.from(remainder);
    const weights = solveCholesky(a, n, y);
    let evidence = 0;
    for (let i = 0; i < n; i += 1) evidence -= 0.5 * y[i]! * weights[i]! + Math.log(a[i * n + i]!);
    if (evidence > best.evidence + 1e-9) best = { evidence, weights, size };
  }
  const { weights, size } = best;
  if (size === 0) return () => 0;
  return (place) => places.reduce((sum, p, i) => sum + size ** 2 * like(place, p) * weights[i]!, 0);
}
