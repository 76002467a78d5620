import { choleskyInPlace, solveCholesky } from '#craft/numerics';
import { median } from './picture.js';

/** Powers xⁱyʲ with i + j ≤ degree, the constant first. */
export function powersOf(degree: number, x: number, y: number): number[] {
  const powers: number[] = [];
  for (let total = 0; total <= degree; total += 1) {
    for (let j = 0; j <= total; j += 1) powers.push(x ** (total - j) * y ** j);
  }
  return powers;
}

/** Weighted least squares by normal equations; null when the rows do not determine the unknowns. */
export function weightedFit(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  weights: readonly number[],
): Float64Array | null {
  const n = rows[0]?.length ?? 0;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  rows.forEach((row, k) => {
    const w = weights[k]!;
    if (w === 0) return;
    for (let i = 0; i < n; i += 1) {
      right[i]! += w * row[i]! * values[k]!;
      for (let j = 0; j <= i; j += 1) normal[n * i + j]! += w * row[i]! * row[j]!;
    }
  });
  return n > 0 && choleskyInPlace(normal, n) ? solveCholesky(normal, n, right) : null;
}

/** Tukey's biweight (Beaton & Tukey, Technometrics 16, 1974), 95 % efficient for normal errors at 4.685. */
export function biweights(residuals: readonly number[], leastScale: number): number[] {
  const scale = Math.max(leastScale, 1.4826 * median(residuals.map(Math.abs)));
  return residuals.map((r) => {
    const u = r / (4.685 * scale);
    return Math.abs(u) < 1 ? (1 - u * u) ** 2 : 0;
  });
}

export const dot = (a: ArrayLike<number>, b: readonly number[]): number =>
  b.reduce((sum, v, i) => sum + v * a[i]!, 0);
