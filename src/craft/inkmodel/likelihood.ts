import { choleskyInPlace, inverseFromCholesky, solveCholesky } from '#craft/numerics';
import { covarianceRow, pointSize } from './kernel.js';
import type { KernelParameters } from './types.js';

export type TrendPrior = Pick<KernelParameters, 'trendSd' | 'guideTrendSd'>;

const root5 = Math.sqrt(5);
export const reaches = 6;
export const weights = 4;
const unknowns = reaches + weights + 1;

/**
 * Log-normal priors, weak: they keep small charts from wild answers. Centres in channel ranges, Lab units squared
 * and Lab units; widths are of the natural logarithm.
 */
const prior = {
  device: { centre: Math.log(1.3), width: 0.5 },
  guide: { centre: Math.log(0.65), width: 0.5 },
  variance: { centre: Math.log(10), width: 2 },
  noise: { centre: Math.log(0.3), width: 0.7 },
};
/** Centre and width of an unknown's prior. */
export const priorOf = (q: number): { centre: number; width: number } =>
  q < 3 ? prior.device : q < reaches ? prior.guide : q < reaches + weights ? prior.variance : prior.noise;

/** The function minimised, over the logarithms of reach (6), variance (4) and noise; exported for its gradient test. */
export function negativeLogPosterior(
  points: Float64Array,
  count: number,
  y: Float64Array,
  noiseMultiple: Float64Array,
  trendPrior: TrendPrior,
): (theta: Float64Array, gradient: Float64Array) => number {
  const pairs = (count * (count - 1)) / 2;
  const distance = Array.from({ length: pointSize }, (_, d) => pairDistances(points, count, d, pairs));
  const trend = trendCovariance(points, count, trendPrior);
  const matrix = new Float64Array(count * count);
  // Of each pair: the three one-channel functions and the two radial ones, with their slopes.
  const k = Array.from({ length: 5 }, () => new Float64Array(pairs));
  const slope = Array.from({ length: 5 }, () => new Float64Array(pairs));

  return (theta, gradient) => {
    const w = [6, 7, 8, 9].map((q) => Math.exp(theta[q]!)) as [number, number, number, number];
    const noiseVariance = Math.exp(2 * theta[10]!);
    for (let d = 0; d < 3; d += 1) singleFunction(distance[d]!, Math.exp(-theta[d]!), k[d]!, slope[d]!);
    for (let group = 0; group < 2; group += 1) {
      const d = 3 * group;
      const scales = [theta[d]!, theta[d + 1]!, theta[d + 2]!].map((t) => Math.exp(-2 * t));
      radialFunction(distance, d, scales, k[3 + group]!, slope[3 + group]!);
    }
    fillMatrix(matrix, trend, k, w, count);
    for (let i = 0; i < count; i += 1) {
      matrix[i * count + i] =
        3 * w[0] + 3 * w[1] + w[2] + w[3] + trend[i * count + i]! + noiseVariance * noiseMultiple[i]!;
    }
    gradient.fill(0);
    if (!choleskyInPlace(matrix, count)) return Number.POSITIVE_INFINITY;
    const alpha = solveCholesky(matrix, count, y);
    let value = 0;
    for (let i = 0; i < count; i += 1) {
      value += 0.5 * y[i]! * alpha[i]! + Math.log(matrix[i * count + i]!);
    }
    const inverse = inverseFromCholesky(matrix, count);
    pairGradient(gradient, theta, inverse, alpha, distance, k, slope, w, count);
    for (let i = 0; i < count; i += 1) {
      const own = 0.5 * (inverse[i * count + i]! - alpha[i]! * alpha[i]!);
      gradient[6] = gradient[6]! + 3 * own * w[0];
      gradient[7] = gradient[7]! + 3 * own * w[1];
      gradient[8] = gradient[8]! + own * w[2];
      gradient[9] = gradient[9]! + own * w[3];
      gradient[10] = gradient[10]! + 2 * own * noiseVariance * noiseMultiple[i]!;
    }
    for (let q = 0; q < unknowns; q += 1) {
      const { centre, width } = priorOf(q);
      const z = (theta[q]! - centre) / width;
      value += 0.5 * z * z;
      gradient[q] = gradient[q]! + z / width;
    }
    return value;
  };
}

function pairDistances(points: Float64Array, count: number, d: number, pairs: number): Float64Array {
  const out = new Float64Array(pairs);
  let p = 0;
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j < i; j += 1) {
      out[p] = root5 * Math.abs(points[pointSize * i + d]! - points[pointSize * j + d]!);
      p += 1;
    }
  }
  return out;
}

/** Matérn 5/2 and its derivative by the logarithm of the reach. */
function singleFunction(distance: Float64Array, scale: number, k: Float64Array, slope: Float64Array): void {
  for (let p = 0; p < distance.length; p += 1) {
    const r = distance[p]! * scale;
    const e = Math.exp(-r);
    k[p] = (1 + r + (r * r) / 3) * e;
    slope[p] = ((r * r * (1 + r)) / 3) * e;
  }
}

/** The radial one; `slope` times a coordinate's own squared distance is the derivative by its log reach. */
function radialFunction(
  distance: readonly Float64Array[],
  d: number,
  scales: readonly number[],
  k: Float64Array,
  slope: Float64Array,
): void {
  const [x, y, z] = [distance[d]!, distance[d + 1]!, distance[d + 2]!];
  const [sx, sy, sz] = [scales[0]!, scales[1]!, scales[2]!];
  for (let p = 0; p < k.length; p += 1) {
    const square = x[p]! * x[p]! * sx + y[p]! * y[p]! * sy + z[p]! * z[p]! * sz;
    const r = Math.sqrt(square);
    const e = Math.exp(-r);
    k[p] = (1 + r + square / 3) * e;
    slope[p] = ((1 + r) / 3) * e;
  }
}

function fillMatrix(
  matrix: Float64Array,
  trend: Float64Array,
  k: readonly Float64Array[],
  w: readonly [number, number, number, number],
  count: number,
): void {
  const [k0, k1, k2, device, guide] = [k[0]!, k[1]!, k[2]!, k[3]!, k[4]!];
  let p = 0;
  for (let i = 0; i < count; i += 1) {
    for (let j = 0; j < i; j += 1) {
      const a = k0[p]!;
      const b = k1[p]!;
      const c = k2[p]!;
      matrix[i * count + j] =
        w[0] * (a + b + c) +
        w[1] * (a * b + b * c + a * c) +
        w[2] * device[p]! +
        w[3] * guide[p]! +
        trend[i * count + j]!;
      p += 1;
    }
  }
}

function pairGradient(
  gradient: Float64Array,
  theta: Float64Array,
  inverse: Float64Array,
  alpha: Float64Array,
  distance: readonly Float64Array[],
  k: readonly Float64Array[],
  slope: readonly Float64Array[],
  w: readonly [number, number, number, number],
  count: number,
): void {
  const [k0, k1, k2, device, guide] = [k[0]!, k[1]!, k[2]!, k[3]!, k[4]!];
  const [d0, d1, d2, dDevice, dGuide] = [slope[0]!, slope[1]!, slope[2]!, slope[3]!, slope[4]!];
  const [w1, w2, w3, w4] = w;
  const [x0, x1, x2, x3, x4, x5] = distance as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  let g0 = 0;
  let g1 = 0;
  let g2 = 0;
  let r0 = 0;
  let r1 = 0;
  let r2 = 0;
  let r3 = 0;
  let r4 = 0;
  let r5 = 0;
  let v1 = 0;
  let v2 = 0;
  let v3 = 0;
  let v4 = 0;
  let p = 0;
  for (let i = 0; i < count; i += 1) {
    const row = i * count;
    const ai = alpha[i]!;
    for (let j = 0; j < i; j += 1) {
      const g = inverse[row + j]! - ai * alpha[j]!;
      const a = k0[p]!;
      const b = k1[p]!;
      const c = k2[p]!;
      v1 += g * (a + b + c);
      v2 += g * (a * b + b * c + a * c);
      v3 += g * device[p]!;
      v4 += g * guide[p]!;
      g0 += g * d0[p]! * (w1 + w2 * (b + c));
      g1 += g * d1[p]! * (w1 + w2 * (a + c));
      g2 += g * d2[p]! * (w1 + w2 * (a + b));
      const gd = g * dDevice[p]!;
      r0 += gd * x0[p]! * x0[p]!;
      r1 += gd * x1[p]! * x1[p]!;
      r2 += gd * x2[p]! * x2[p]!;
      const gg = g * dGuide[p]!;
      r3 += gg * x3[p]! * x3[p]!;
      r4 += gg * x4[p]! * x4[p]!;
      r5 += gg * x5[p]! * x5[p]!;
      p += 1;
    }
  }
  const square = (q: number): number => Math.exp(-2 * theta[q]!);
  gradient[0] = g0 + w3 * r0 * square(0);
  gradient[1] = g1 + w3 * r1 * square(1);
  gradient[2] = g2 + w3 * r2 * square(2);
  gradient[3] = w4 * r3 * square(3);
  gradient[4] = w4 * r4 * square(4);
  gradient[5] = w4 * r5 * square(5);
  gradient[6] = v1 * w1;
  gradient[7] = v2 * w2;
  gradient[8] = v3 * w3;
  gradient[9] = v4 * w4;
}

function trendCovariance(points: Float64Array, count: number, trendPrior: TrendPrior): Float64Array {
  const out = new Float64Array(count * count);
  const only = { reach: [1, 1, 1, 1, 1, 1], variance: [0, 0, 0, 0], ...trendPrior } as const;
  for (let i = 0; i < count; i += 1) {
    covarianceRow(only, points, pointSize * i, points, i + 1, out.subarray(i * count, i * count + i + 1));
  }
  return out;
}
