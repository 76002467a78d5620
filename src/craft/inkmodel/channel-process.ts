import { choleskyInPlace, inverseFromCholesky, solveCholesky, solveLower } from '#craft/numerics';
import { covarianceRow, ownCovariance, pointSize } from './kernel.js';
import type { ChannelParameters } from './types.js';

/** One coordinate's Gaussian process conditioned on the patches (Rasmussen & Williams 2006, algorithm 2.1). */
export interface ChannelProcess {
  readonly parameters: ChannelParameters;
  /** count × 6. */
  readonly points: Float64Array;
  readonly count: number;
  /** K⁻¹ y. */
  readonly weights: Float64Array;
  /** Cholesky factor of K. */
  readonly factor: Float64Array;
}

export function conditionChannel(
  parameters: ChannelParameters,
  points: Float64Array,
  count: number,
  y: Float64Array,
  noiseMultiple: Float64Array,
): ChannelProcess {
  // A hair on the diagonal where repeated patches and next to no noise make K singular in double precision.
  for (let hair = 0; hair < 1; hair = hair === 0 ? 1e-10 : 10 * hair) {
    const factor = new Float64Array(count * count);
    for (let i = 0; i < count; i += 1) {
      const row = factor.subarray(i * count, i * count + i + 1);
      covarianceRow(parameters.kernel, points, pointSize * i, points, i + 1, row);
      row[i] = row[i]! * (1 + hair) + parameters.noiseSd ** 2 * noiseMultiple[i]!;
    }
    if (choleskyInPlace(factor, count)) {
      return { parameters, points, count, factor, weights: solveCholesky(factor, count, y) };
    }
  }
  throw new RangeError('a covariance that is not positive definite');
}

/** Means at `total` points (total × 6). */
export function channelMeans(process: ChannelProcess, points: Float64Array, total: number): Float64Array {
  const row = new Float64Array(process.count);
  const out = new Float64Array(total);
  for (let i = 0; i < total; i += 1) {
    covarianceRow(process.parameters.kernel, points, pointSize * i, process.points, process.count, row);
    let sum = 0;
    for (let j = 0; j < process.count; j += 1) sum += row[j]! * process.weights[j]!;
    out[i] = sum;
  }
  return out;
}

/** Variances of the colour itself, without reading noise. */
export function channelVariances(process: ChannelProcess, points: Float64Array, total: number): Float64Array {
  const row = new Float64Array(process.count);
  const solved = new Float64Array(process.count);
  const out = new Float64Array(total);
  for (let i = 0; i < total; i += 1) {
    covarianceRow(process.parameters.kernel, points, pointSize * i, process.points, process.count, row);
    solveLower(process.factor, process.count, row, solved);
    let known = 0;
    for (let j = 0; j < process.count; j += 1) known += solved[j]! * solved[j]!;
    out[i] = Math.max(1e-8, ownCovariance(process.parameters.kernel, points, pointSize * i) - known);
  }
  return out;
}

/**
 * What the others say of each patch: reading − mean, and the variance expected of that difference (Rasmussen &
 * Williams 2006, eq. 5.10–5.12).
 */
export function leaveOneOut(process: ChannelProcess): { residual: Float64Array; variance: Float64Array } {
  const { count, factor, weights } = process;
  const inverse = inverseFromCholesky(factor, count);
  const residual = new Float64Array(count);
  const variance = new Float64Array(count);
  for (let i = 0; i < count; i += 1) {
    const d = inverse[i * count + i]!;
    residual[i] = weights[i]! / d;
    variance[i] = 1 / d;
  }
  return { residual, variance };
}
