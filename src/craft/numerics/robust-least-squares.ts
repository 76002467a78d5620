import { type LeastSquares, leastSquares } from './least-squares.js';
import { median } from './order-statistics.js';

export interface RobustFit {
  readonly fit: LeastSquares;
  /** Of each row, 0..1: how far it was believed. */
  readonly belief: Float64Array;
  /** Standard deviation of the residuals by their median size, in units of each row's own σ. */
  readonly scale: number;
}

export interface RobustOptions {
  readonly leastScale?: number;
  readonly neverRefused?: (row: number) => boolean;
}

/** 95 % as good as least squares where all is normal (Holland & Welsch, Commun. Stat. A6, 1977). */
const bend = 4.685;
/** Huber's bend, likewise 95 % as good. */
const softBend = 1.345;
/** Φ⁻¹(3/4) */
const quartile = 0.6745;

/**
 * Tukey's bisquare M-estimate by reweighted least squares, started from plain least squares; its scale is the median
 * size of the residuals over 0.6745 (Venables & Ripley, Modern Applied Statistics with S, 4th ed., 6.5).
 * @param weights one over the variance of each row, up to a common factor; all alike when absent
 * @param options.leastScale the scale is not taken below this, so that rows that agree perfectly do not refuse the rest
 * @param options.neverRefused rows that are believed less (Huber's weight), but never wholly refused
 * @returns null when the rows do not determine the coefficients
 */
export function robustLeastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  weights?: readonly number[],
  { leastScale = 0, neverRefused }: RobustOptions = {},
): RobustFit | null {
  let fit = leastSquares(rows, values, weights);
  if (fit === null) return null;
  const roots = values.map((_, i) => Math.sqrt(weights?.[i] ?? 1));
  let belief = new Float64Array(values.length).fill(1);
  let scale = 0;
  for (let round = 0; round < 50; round += 1) {
    const sizes = Array.from(fit.residuals, (r, i) => Math.abs(r) * roots[i]!);
    scale = Math.max(leastScale, median(sizes) / quartile);
    if (!(scale > 0)) break;
    belief = Float64Array.from(sizes, (size, i) => {
      const u = size / (bend * scale);
      const bisquare = u < 1 ? (1 - u * u) ** 2 : 0;
      return neverRefused?.(i) ? Math.max(bisquare, Math.min(1, (softBend * scale) / size)) : bisquare;
    });
    const next = leastSquares(
      rows,
      values,
      Array.from(belief, (b, i) => b * (weights?.[i] ?? 1)),
    );
    if (next === null) break;
    const before: LeastSquares = fit;
    const moved = next.residuals.reduce((sum, r, i) => sum + (r - before.residuals[i]!) ** 2, 0);
    const size = before.residuals.reduce((sum, r) => sum + r * r, 0);
    fit = next;
    if (moved <= 1e-10 * size) break;
  }
  return { fit, belief, scale };
}
