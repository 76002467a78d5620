import { choleskyInPlace, inverseFromCholesky, minimise, solveCholesky, solveLower } from '#craft/numerics';
import { solveSmall } from './linear-fit.js';
import type { ProcessParameters } from './types.js';

/**
 * A Gaussian process for one Lab coordinate over the reader's encoded light: a quadratic trend with a wide prior,
 * integrated out (Rasmussen & Williams 2006, 2.7), and a Matérn 5/2 function (eq. 4.17) on what the trend leaves.
 */
export interface LightProcess {
  readonly parameters: ProcessParameters;
  /** count × 3 encoded light, count × terms. */
  readonly x: readonly (readonly number[])[];
  readonly trend: readonly (readonly number[])[];
  readonly factor: Float64Array;
  readonly weights: Float64Array;
}

/** Prior standard deviation of the trend's terms, Lab units: constant, three linear, six quadratic. */
const trendSd = [100, 120, 120, 120, 20, 20, 20, 20, 20, 20];
/** Log-normal priors: centre, width of the natural logarithm. Reaches in encoded light, deviations in Lab units. */
const prior = {
  reach: { centre: Math.log(0.5), width: 0.6 },
  sd: { centre: Math.log(3), width: 1.2 },
  noise: { centre: Math.log(0.4), width: 0.7 },
};
const priors = [prior.reach, prior.reach, prior.reach, prior.sd, prior.noise];

export const trendCovariance = (a: readonly number[], b: readonly number[]): number => {
  let sum = 0;
  for (let p = 0; p < trendSd.length; p += 1) sum += trendSd[p]! * trendSd[p]! * a[p]! * b[p]!;
  return sum;
};

function matern(a: readonly number[], b: readonly number[], { reach, sd }: ProcessParameters): number {
  let square = 0;
  for (let d = 0; d < 3; d += 1) square += 5 * ((a[d]! - b[d]!) / reach[d]!) ** 2;
  const r = Math.sqrt(square);
  return sd * sd * (1 + r + square / 3) * Math.exp(-r);
}

/** Settings by the maximum of marginal likelihood times priors (Rasmussen & Williams 2006, eq. 5.8, 5.9). */
export function learnProcess(
  x: readonly (readonly number[])[],
  trend: readonly (readonly number[])[],
  y: readonly number[],
  multiple: readonly number[],
): ProcessParameters {
  const n = x.length;
  const fixed = new Float64Array(n * n);
  const gap = [0, 1, 2].map(() => new Float64Array(n * n));
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) {
      fixed[i * n + j] = trendCovariance(trend[i]!, trend[j]!);
      for (let d = 0; d < 3; d += 1) gap[d]![i * n + j] = 5 * (x[i]![d]! - x[j]![d]!) ** 2;
    }
  }
  const [gx, gy, gz] = [gap[0]!, gap[1]!, gap[2]!];
  const matrix = new Float64Array(n * n);
  const target = Float64Array.from(y);
  const found = minimise(
    (theta, gradient) => {
      const [sx, sy, sz] = [0, 1, 2].map((d) => Math.exp(-2 * theta[d]!)) as [number, number, number];
      const height = Math.exp(2 * theta[3]!);
      const noise = Math.exp(2 * theta[4]!);
      for (let i = 0; i < n; i += 1) {
        for (let j = 0; j <= i; j += 1) {
          const at = i * n + j;
          const square = gx[at]! * sx + gy[at]! * sy + gz[at]! * sz;
          const r = Math.sqrt(square);
          matrix[at] = fixed[at]! + height * (1 + r + square / 3) * Math.exp(-r);
        }
        matrix[i * n + i] = matrix[i * n + i]! + noise * multiple[i]!;
      }
      gradient.fill(0);
      if (!choleskyInPlace(matrix, n)) return Number.POSITIVE_INFINITY;
      const alpha = solveCholesky(matrix, n, target);
      let value = 0;
      for (let i = 0; i < n; i += 1) value += 0.5 * target[i]! * alpha[i]! + Math.log(matrix[i * n + i]!);
      const inverse = inverseFromCholesky(matrix, n);
      let [g0, g1, g2, g3, g4] = [0, 0, 0, 0, 0];
      for (let i = 0; i < n; i += 1) {
        for (let j = 0; j < i; j += 1) {
          const at = i * n + j;
          const [ax, ay, az] = [gx[at]! * sx, gy[at]! * sy, gz[at]! * sz];
          const square = ax + ay + az;
          const r = Math.sqrt(square);
          const e = (inverse[at]! - alpha[i]! * alpha[j]!) * height * Math.exp(-r);
          const slope = (e * (1 + r)) / 3;
          g0 += slope * ax;
          g1 += slope * ay;
          g2 += slope * az;
          g3 += 2 * e * (1 + r + square / 3);
        }
        const own = inverse[i * n + i]! - alpha[i]! ** 2;
        g3 += own * height;
        g4 += own * noise * multiple[i]!;
      }
      gradient.set([g0, g1, g2, g3, g4]);
      priors.forEach(({ centre, width }, q) => {
        const z = (theta[q]! - centre) / width;
        value += 0.5 * z * z;
        gradient[q] = gradient[q]! + z / width;
      });
      return value;
    },
    priors.map(({ centre }) => centre),
    {
      lower: [-3, -3, -3, Math.log(0.02), Math.log(0.05)],
      upper: [2, 2, 2, Math.log(40), Math.log(8)],
      maxIterations: 40,
      gradientTolerance: 2e-2,
      valueTolerance: 1e-5,
    },
  );
  const at = (q: number): number => Math.exp(found.x[q]!);
  return { reach: [at(0), at(1), at(2)], sd: at(3), noiseSd: at(4) };
}

/** Conditioned on pairs (Rasmussen & Williams 2006, algorithm 2.1). */
export function conditionProcess(
  parameters: ProcessParameters,
  x: readonly (readonly number[])[],
  trend: readonly (readonly number[])[],
  y: readonly number[],
  multiple: readonly number[],
): LightProcess {
  const n = x.length;
  for (let hair = 1e-10; ; hair *= 10) {
    const factor = new Float64Array(n * n);
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j <= i; j += 1) {
        factor[i * n + j] = trendCovariance(trend[i]!, trend[j]!) + matern(x[i]!, x[j]!, parameters);
      }
      const at = i * n + i;
      factor[at] = factor[at]! * (1 + hair) + parameters.noiseSd ** 2 * multiple[i]!;
    }
    if (choleskyInPlace(factor, n)) {
      return { parameters, x, trend, factor, weights: solveCholesky(factor, n, Float64Array.from(y)) };
    }
    if (hair > 1e-2) throw new RangeError('a covariance that is not positive definite');
  }
}

/** Mean, and variance of the colour itself, at one place. */
export function processAt(
  process: LightProcess,
  x: readonly number[],
  trend: readonly number[],
): { mean: number; variance: number } {
  const n = process.x.length;
  const row = Float64Array.from(
    process.x,
    (other, i) => matern(x, other, process.parameters) + trendCovariance(trend, process.trend[i]!),
  );
  let mean = 0;
  for (let i = 0; i < n; i += 1) mean += row[i]! * process.weights[i]!;
  const solved = solveLower(process.factor, n, row);
  let known = 0;
  for (const v of solved) known += v * v;
  const own = process.parameters.sd ** 2 + trendCovariance(trend, trend);
  return { mean, variance: Math.max(1e-8, own - known) };
}

/** For each pair what the process says without the pair's group, and the variance expected of the difference (eq. 5.10–5.12, by blocks). */
export function leftOutProcess(
  process: LightProcess,
  y: readonly number[],
  groups: readonly (readonly number[])[],
): { said: Float64Array; variance: Float64Array } {
  const n = process.x.length;
  const inverse = inverseFromCholesky(process.factor, n);
  const said = new Float64Array(n);
  const variance = new Float64Array(n);
  for (const group of groups) {
    const block = (right: (k: number) => number): number[] =>
      solveSmall(
        group.map((i, k) => [...group.map((j) => inverse[i * n + j]!), right(k)]),
        group.length,
      );
    const residual = block((k) => process.weights[group[k]!]!);
    group.forEach((i, k) => {
      said[i] = y[i]! - residual[k]!;
      variance[i] = block((m) => (m === k ? 1 : 0))[k]!;
    });
  }
  return { said, variance };
}
