import { choleskyInPlace, inverseFromCholesky } from '#craft/numerics';

/** Least squares with a ridge on all terms but the constant (the first or the last, `constantAt`). */
export interface LinearFit {
  readonly coefficients: Float64Array;
  /** (ΦᵀWΦ + R)⁻¹, terms × terms. */
  readonly inverse: Float64Array;
  readonly terms: number;
}

/** Null when the terms cannot be told apart by these rows. */
export function fitLinear(
  rows: readonly (readonly number[])[],
  y: readonly number[],
  weight: readonly number[],
  ridge: number,
  constantAt: number,
): LinearFit | null {
  const terms = rows[0]!.length;
  const normal = new Float64Array(terms * terms);
  const right = new Float64Array(terms);
  rows.forEach((row, i) => {
    const w = weight[i]!;
    for (let p = 0; p < terms; p += 1) {
      right[p] = right[p]! + w * row[p]! * y[i]!;
      for (let q = 0; q <= p; q += 1) normal[p * terms + q] = normal[p * terms + q]! + w * row[p]! * row[q]!;
    }
  });
  const mean = weight.reduce((sum, w) => sum + w, 0) / weight.length;
  for (let p = 0; p < terms; p += 1) {
    if (p !== constantAt) normal[p * terms + p] = normal[p * terms + p]! + ridge * mean;
    normal[p * terms + p] = normal[p * terms + p]! * (1 + 1e-10);
  }
  if (!choleskyInPlace(normal, terms)) return null;
  const inverse = inverseFromCholesky(normal, terms);
  const coefficients = new Float64Array(terms);
  for (let p = 0; p < terms; p += 1)
    for (let q = 0; q < terms; q += 1)
      coefficients[p] = coefficients[p]! + inverse[p * terms + q]! * right[q]!;
  return { coefficients, inverse, terms };
}

export const estimateAt = ({ coefficients }: LinearFit, row: readonly number[]): number =>
  row.reduce((sum, v, p) => sum + v * coefficients[p]!, 0);

/** φᵀ(ΦᵀWΦ + R)⁻¹φ′: times a reading's variance, how unsure the fit is there. */
export function leverage({ inverse, terms }: LinearFit, a: readonly number[], b = a): number {
  let sum = 0;
  for (let p = 0; p < terms; p += 1)
    for (let q = 0; q < terms; q += 1) sum += a[p]! * inverse[p * terms + q]! * b[q]!;
  return sum;
}

/**
 * For each row what the fit without its group would say of it: ŷ = y − (I − H)⁻¹ r over the group's rows, exact for
 * a linear smoother (Hastie, Tibshirani & Friedman, The Elements of Statistical Learning, 2nd ed., 7.10, for groups of
 * one; the block form is the same algebra).
 */
export function leftOutLinear(
  fit: LinearFit,
  rows: readonly (readonly number[])[],
  y: readonly number[],
  weight: readonly number[],
  groups: readonly (readonly number[])[],
): Float64Array {
  const out = new Float64Array(rows.length);
  for (const group of groups) {
    const n = group.length;
    const system = group.map((i) => [
      ...group.map((j) => (i === j ? 1 : 0) - leverage(fit, rows[i]!, rows[j]!) * weight[j]!),
      y[i]! - estimateAt(fit, rows[i]!),
    ]);
    const residual = solveSmall(system, n);
    group.forEach((i, k) => {
      out[i] = y[i]! - residual[k]!;
    });
  }
  return out;
}

/** Gauss elimination with pivoting of n rows of n + 1. Where a pivot is nought (a row that alone decides a term) it is held off. */
export function solveSmall(system: number[][], n: number): number[] {
  for (let i = 0; i < n; i += 1) {
    let best = i;
    for (let j = i + 1; j < n; j += 1) if (Math.abs(system[j]![i]!) > Math.abs(system[best]![i]!)) best = j;
    [system[i], system[best]] = [system[best]!, system[i]!];
    const row = system[i]!;
    const pivot = Math.abs(row[i]!) < 1e-6 ? 1e-6 : row[i]!;
    for (let j = 0; j < n; j += 1) {
      if (j === i) continue;
      const factor = system[j]![i]! / pivot;
      for (let k = i; k <= n; k += 1) system[j]![k] = system[j]![k]! - factor * row[k]!;
    }
    row[i] = pivot;
  }
  return system.map((row, i) => row[n]! / row[i]!);
}
