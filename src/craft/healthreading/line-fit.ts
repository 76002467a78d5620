import { choleskyInPlace, solveCholesky } from '#craft/numerics';

/** Plain least squares by the normal equations, for a few unknowns of like size; null when they cannot be told. */
export function leastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
): Float64Array | null {
  const n = rows[0]?.length ?? 0;
  if (rows.length < n || n === 0) return null;
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  rows.forEach((row, i) => {
    for (let a = 0; a < n; a += 1) {
      right[a]! += row[a]! * values[i]!;
      for (let b = 0; b <= a; b += 1) normal[a * n + b]! += row[a]! * row[b]!;
    }
  });
  return choleskyInPlace(normal, n) ? solveCholesky(normal, n, right) : null;
}
