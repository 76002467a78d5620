import { choleskyInPlace, solveCholesky } from '#craft/numerics';

/**
 * Normal equations with Marquardt's damping (SIAM J. Appl. Math. 11, 1963): the diagonal grown by a share of itself.
 * @param normal row-major, lower triangle filled @returns null when singular
 */
export function solveDamped(normal: Float64Array, right: Float64Array, damping: number): Float64Array | null {
  const n = right.length;
  const own = normal.slice();
  for (let i = 0; i < n; i += 1) own[i * n + i]! *= 1 + damping;
  return choleskyInPlace(own, n) ? solveCholesky(own, n, right) : null;
}
