import type { MapError } from './types.js';

/**
 * Ninety-fifth percentile over mean of a vector of three equal normal coordinates (Maxwell: √7.815 / 1.596): for few
 * colours and for published means, whose tail is not known.
 */
export const p95OverMean = 1.752;

/** Of errors on colours left out. Few of them tell little of the tail: then the larger of theirs and Maxwell's. */
export function errorOf(errors: readonly number[], restsOn: MapError['restsOn'] = 'calibration'): MapError {
  const sorted = errors.toSorted((a, b) => a - b);
  const meanDeltaE00 = sorted.reduce((sum, v) => sum + v, 0) / sorted.length;
  const tail = sorted[Math.min(sorted.length - 1, Math.floor(0.95 * sorted.length))]!;
  const p95DeltaE00 = sorted.length < 60 ? Math.max(tail, p95OverMean * meanDeltaE00) : tail;
  return { meanDeltaE00, p95DeltaE00, restsOn };
}

/** Two causes that have nothing to do with each other. */
export const together = (
  one: MapError,
  other: { readonly mean: number; readonly p95: number },
): MapError => ({
  meanDeltaE00: Math.hypot(one.meanDeltaE00, other.mean),
  p95DeltaE00: Math.hypot(one.p95DeltaE00, other.p95),
  restsOn: one.restsOn,
});
