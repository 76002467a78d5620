/**
 * The usual ways to learn a printer, to compare with: each takes device RGB 0..1 and measured Lab, and gives a function.
 */
import { choleskyInPlace, inverseFromCholesky, minimise, solveCholesky } from '#craft/numerics';
import type { Triple } from './virtual-printer.js';

export type Learnt = (rgb: readonly Triple[]) => [number, number, number][];
export type Learner = (rgb: readonly Triple[], lab: readonly Triple[]) => Learnt;

/** All products of r, g, b up to the third degree (20 terms), least squares with a hair of ridge. */
export const cubicRegression: Learner = (rgb, lab) => {
  const design = rgb.map(cubicTerms);
  const terms = 20;
  const normal = new Float64Array(terms * terms);
  for (const row of design) {
    for (let p = 0; p < terms; p += 1)
      for (let q = 0; q <= p; q += 1) normal[p * terms + q] = normal[p * terms + q]! + row[p]! * row[q]!;
  }
  for (let p = 0; p < terms; p += 1) normal[p * terms + p] = normal[p * terms + p]! + 1e-6;
  choleskyInPlace(normal, terms);
  const solved = [0, 1, 2].map((j) => {
    const right = new Float64Array(terms);
    design.forEach((row, i) => {
      for (let p = 0; p < terms; p += 1) right[p] = right[p]! + row[p]! * lab[i]![j]!;
    });
    return solveCholesky(normal, terms, right);
  });
  return (points) =>
    points.map((point) => {
      const row = cubicTerms(point);
      return solved.map((w) => row.reduce((sum, v, p) => sum + v * w[p]!, 0)) as [number, number, number];
    });
};

function cubicTerms([r, g, b]: Triple): number[] {
  const out: number[] = [];
  for (let i = 0; i <= 3; i += 1)
    for (let j = 0; i + j <= 3; j += 1)
      for (let k = 0; i + j + k <= 3; k += 1) out.push(r ** i * g ** j * b ** k);
  return out;
}

/** Device colours of the largest regular grid that fits into a count, and its points along a channel. */
export function gridPatches(count: number): { size: number; rgb: [number, number, number][] } {
  const size = Math.floor(Math.cbrt(count) + 1e-9);
  const rgb = Array.from({ length: size ** 3 }, (_, i): [number, number, number] => [
    Math.floor(i / (size * size)) / (size - 1),
    (Math.floor(i / size) % size) / (size - 1),
    (i % size) / (size - 1),
  ]);
  return { size, rgb };
}

/** Tetrahedral interpolation of a regular grid chart (Kang 1997, 4.4); the lab must be in the grid's order. */
export const tetrahedral: Learner = (rgb, lab) => {
  const size = Math.round(Math.cbrt(rgb.length));
  return (points) =>
    points.map((point) => {
      const place = point.map((v) => Math.min(size - 1 - 1e-9, Math.max(0, v) * (size - 1)));
      const cell = place.map(Math.floor);
      const share = place.map((v, d) => v - cell[d]!);
      const order = [0, 1, 2].sort((a, b) => share[b]! - share[a]!);
      const at = [...cell];
      const out: [number, number, number] = [0, 0, 0];
      const add = (weight: number): void => {
        const value = lab[(at[0]! * size + at[1]!) * size + at[2]!]!;
        for (let j = 0; j < 3; j += 1) out[j] = out[j]! + weight * value[j]!;
      };
      add(1 - share[order[0]!]!);
      order.forEach((d, k) => {
        at[d] = at[d]! + 1;
        add(share[d]! - (k < 2 ? share[order[k + 1]!]! : 0));
      });
      return out;
    });
};

/** Polyharmonic spline r with a linear part in three dimensions (the biharmonic "thin plate"), smoothing by the noise. */
export const thinPlate: Learner = (rgb, lab) => {
  // The kernel is −r up to a linear part; with a wide linear trend it is positive definite enough to solve as one.
  const n = rgb.length;
  const matrix = new Float64Array(n * n);
  const kernel = (a: Triple, b: Triple): number =>
    2000 * (4 - Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])) +
    1e5 * (1 + a[0] * b[0] + a[1] * b[1] + a[2] * b[2]);
  for (let i = 0; i < n; i += 1) {
    for (let j = 0; j <= i; j += 1) matrix[i * n + j] = kernel(rgb[i]!, rgb[j]!);
    matrix[i * n + i] = matrix[i * n + i]! + 0.25 ** 2;
  }
  if (!choleskyInPlace(matrix, n)) throw new Error('thin plate: not positive definite');
  const weights = [0, 1, 2].map((j) =>
    solveCholesky(
      matrix,
      n,
      Float64Array.from(lab, (v) => v[j]!),
    ),
  );
  return (points) =>
    points.map((point) => {
      const row = rgb.map((other) => kernel(point, other));
      return weights.map((w) => row.reduce((sum, k, i) => sum + k * w[i]!, 0)) as [number, number, number];
    });
};

/** One Matérn 5/2 with a reach for each channel on plain RGB, constant mean, noise; marginal likelihood, no priors. */
export const plainProcess: Learner = (rgb, lab) => {
  const n = rgb.length;
  const some = Math.min(n, 200);
  const channels = [0, 1, 2].map((j) => {
    const mean = lab.reduce((sum, v) => sum + v[j]!, 0) / n;
    const y = Float64Array.from(lab, (v) => v[j]! - mean);
    const theta = minimise(ardObjective(rgb.slice(0, some), y.subarray(0, some)), [0, 0, 0, 6, -1], {
      lower: [-3, -3, -3, -4, -4],
      upper: [4, 4, 4, 12, 2],
      maxIterations: 60,
      gradientTolerance: 1e-2,
      valueTolerance: 1e-6,
    }).x;
    const matrix = new Float64Array(n * n);
    for (let i = 0; i < n; i += 1) {
      for (let k = 0; k <= i; k += 1) matrix[i * n + k] = ardKernel(theta, rgb[i]!, rgb[k]!);
      matrix[i * n + i] = matrix[i * n + i]! + Math.exp(2 * theta[4]!);
    }
    if (!choleskyInPlace(matrix, n)) throw new Error('plain process: not positive definite');
    return { mean, theta, weights: solveCholesky(matrix, n, y) };
  });
  return (points) =>
    points.map(
      (point) =>
        channels.map(({ mean, theta, weights }) =>
          rgb.reduce((sum, other, i) => sum + ardKernel(theta, point, other) * weights[i]!, mean),
        ) as [number, number, number],
    );
};

function ardKernel(theta: Float64Array, a: Triple, b: Triple): number {
  let square = 0;
  for (let d = 0; d < 3; d += 1) square += 5 * ((a[d]! - b[d]!) * Math.exp(-theta[d]!)) ** 2;
  const r = Math.sqrt(square);
  return Math.exp(theta[3]!) * (1 + r + square / 3) * Math.exp(-r);
}

function ardObjective(rgb: readonly Triple[], y: Float64Array): (t: Float64Array, g: Float64Array) => number {
  const n = rgb.length;
  const matrix = new Float64Array(n * n);
  return (theta, gradient) => {
    const noise = Math.exp(2 * theta[4]!);
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j <= i; j += 1) matrix[i * n + j] = ardKernel(theta, rgb[i]!, rgb[j]!);
      matrix[i * n + i] = matrix[i * n + i]! + noise;
    }
    gradient.fill(0);
    if (!choleskyInPlace(matrix, n)) return Number.POSITIVE_INFINITY;
    const alpha = solveCholesky(matrix, n, y);
    let value = 0;
    for (let i = 0; i < n; i += 1) value += 0.5 * y[i]! * alpha[i]! + Math.log(matrix[i * n + i]!);
    const inverse = inverseFromCholesky(matrix, n);
    const scale = [0, 1, 2].map((d) => 5 * Math.exp(-2 * theta[d]!));
    const height = Math.exp(theta[3]!);
    for (let i = 0; i < n; i += 1) {
      for (let j = 0; j < i; j += 1) {
        const g = inverse[i * n + j]! - alpha[i]! * alpha[j]!;
        const parts = [0, 1, 2].map((d) => scale[d]! * (rgb[i]![d]! - rgb[j]![d]!) ** 2);
        const square = parts[0]! + parts[1]! + parts[2]!;
        const r = Math.sqrt(square);
        const e = height * Math.exp(-r);
        for (let d = 0; d < 3; d += 1) gradient[d] = gradient[d]! + (g * e * (1 + r) * parts[d]!) / 3;
        gradient[3] = gradient[3]! + g * e * (1 + r + square / 3);
      }
      const own = 0.5 * (inverse[i * n + i]! - alpha[i]! ** 2);
      gradient[3] = gradient[3]! + own * height;
      gradient[4] = gradient[4]! + 2 * own * noise;
    }
    return value;
  };
}
