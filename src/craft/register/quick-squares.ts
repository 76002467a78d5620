import { choleskyInPlace, median, solveCholesky } from '#craft/numerics';

/**
 * Weighted least squares by normal equations: several times quicker than an orthogonal factorisation, and near enough
 * where the columns are of a size and far from alike, as they are made here.
 * @returns null when the rows do not determine the coefficients
 */
export function quickSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  weights: ArrayLike<number>,
): Float64Array | null {
  const n = rows[0]?.length ?? 0;
  if (n === 0 || rows.length < n) return null;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  for (let i = 0; i < rows.length; i += 1) {
    const row = rows[i]!;
    const weight = weights[i]!;
    if (weight === 0) continue;
    for (let a = 0; a < n; a += 1) {
      const v = row[a]! * weight;
      if (v === 0) continue;
      right[a] = right[a]! + v * values[i]!;
      for (let b = 0; b <= a; b += 1) normal[a * n + b] = normal[a * n + b]! + v * row[b]!;
    }
  }
  let trace = 0;
  for (let a = 0; a < n; a += 1) trace += normal[a * n + a]!;
  for (let a = 0; a < n; a += 1) normal[a * n + a] = normal[a * n + a]! + 1e-12 * trace;
  if (!choleskyInPlace(normal, n)) return null;
  const solved = solveCholesky(normal, n, right);
  return solved.every(Number.isFinite) ? solved : null;
}

/** Tukey's bisquare over the same, as `robustLeastSquares` of numerics, for a few rounds. */
export function quickRobustSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  weights: ArrayLike<number>,
  leastScale: number,
): Float64Array | null {
  let solved = quickSquares(rows, values, weights);
  for (let round = 0; round < 10 && solved; round += 1) {
    const now = solved;
    const sizes = rows.map((row, i) => {
      let sum = -values[i]!;
      for (let k = 0; k < row.length; k += 1) sum += row[k]! * now[k]!;
      return Math.abs(sum) * Math.sqrt(weights[i]!);
    });
    const scale = Math.max(leastScale, median(sizes) / 0.6745);
    const believed = sizes.map((size, i) => {
      const u = size / (4.685 * scale);
      return u < 1 ? (1 - u * u) ** 2 * weights[i]! : 0;
    });
    solved = quickSquares(rows, values, believed) ?? solved;
    if (solved.every((v, k) => Math.abs(v - now[k]!) < 1e-5)) break;
  }
  return solved;
}
