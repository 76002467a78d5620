import { median, quantile } from '#craft/numerics';
import type { Estimate } from './types.js';

export { median, quantile };

/** Median and the range of nine in ten. */
export const estimateOf = (values: readonly number[]): Estimate => ({
  value: median(values),
  low: quantile(values, 0.05),
  high: quantile(values, 0.95),
});

export const mean = (values: readonly number[]): number =>
  values.reduce((sum, v) => sum + v, 0) / values.length;

export function standardDeviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(values.reduce((sum, v) => sum + (v - middle) ** 2, 0) / Math.max(1, values.length - 1));
}

/** Standard deviation by the median of distances from the median: one in a hundred wild values does not move it. */
export function robustSd(values: readonly number[]): number {
  const middle = median(values);
  // 1/Φ⁻¹(3/4), so that it is σ for normal values.
  return 1.4826 * median(values.map((v) => Math.abs(v - middle)));
}
