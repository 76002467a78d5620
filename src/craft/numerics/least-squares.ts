import { choleskyInPlace, solveCholesky } from './cholesky.js';

export interface LeastSquaresOptions {
  /** Default 60. */
  readonly maxIterations?: number;
  /** Stop when the sum of squares falls by less than this share. Default 1e-10. */
  readonly tolerance?: number;
  /** Forward-difference step, relative to max(1, |x|). Default 1e-6. */
  readonly differenceStep?: number;
  /** Typical size of each unknown, for steps and damping. Default 1 each. */
  readonly scale?: readonly number[];
}

export interface LeastSquaresResult {
  readonly x: Float64Array;
  /** Σ residual². */
  readonly sumOfSquares: number;
  readonly iterations: number;
}

/**
 * Levenberg–Marquardt with the Jacobian by forward differences (Moré 1978; Nielsen's damping rule, IMM-REP-1999-05).
 * @param residuals writes `count` residuals at x into `out`
 */
export function leastSquares(
  residuals: (x: Float64Array, out: Float64Array) => void,
  start: ArrayLike<number>,
  count: number,
  options: LeastSquaresOptions = {},
): LeastSquaresResult {
  const n = start.length;
  const maxIterations = options.maxIterations ?? 60;
  const tolerance = options.tolerance ?? 1e-10;
  const difference = options.differenceStep ?? 1e-6;
  let x = Float64Array.from(start);
  let r = new Float64Array(count);
  residuals(x, r);
  let sum = squares(r);
  let damping = 1e-3;
  let growth = 2;
  const jacobian = new Float64Array(n * count);
  const normal = new Float64Array(n * n);
  const right = new Float64Array(n);
  const shifted = new Float64Array(count);
  let iterations = 0;

  for (; iterations < maxIterations; iterations += 1) {
    for (let p = 0; p < n; p += 1) {
      const kept = x[p]!;
      const h = difference * Math.max(options.scale?.[p] ?? 1, Math.abs(kept));
      x[p] = kept + h;
      residuals(x, shifted);
      x[p] = kept;
      const at = p * count;
      for (let i = 0; i < count; i += 1) jacobian[at + i] = (shifted[i]! - r[i]!) / h;
    }
    for (let p = 0; p < n; p += 1) {
      let g = 0;
      for (let i = 0; i < count; i += 1) g -= jacobian[p * count + i]! * r[i]!;
      right[p] = g;
      for (let q = 0; q <= p; q += 1) {
        let s = 0;
        for (let i = 0; i < count; i += 1) s += jacobian[p * count + i]! * jacobian[q * count + i]!;
        normal[p * n + q] = s;
      }
    }
    let moved = false;
    let calm = false;
    for (let tries = 0; tries < 12 && !moved; tries += 1) {
      const damped = normal.slice();
      for (let p = 0; p < n; p += 1) damped[p * n + p] = normal[p * n + p]! * (1 + damping) + 1e-14;
      if (choleskyInPlace(damped, n)) {
        const step = solveCholesky(damped, n, right);
        const nextX = x.map((v, i) => v + step[i]!);
        const nextR = new Float64Array(count);
        residuals(nextX, nextR);
        const nextSum = squares(nextR);
        if (nextSum < sum) {
          calm = sum - nextSum < tolerance * sum;
          x = nextX;
          r = nextR;
          sum = nextSum;
          damping = Math.max(damping / 5, 1e-14);
          growth = 2;
          moved = true;
          break;
        }
      }
      damping *= growth;
      growth *= 2;
    }
    if (!moved || calm) break;
  }
  return { x, sumOfSquares: sum, iterations };
}

function squares(r: Float64Array): number {
  let sum = 0;
  for (const v of r) sum += v * v;
  return Number.isFinite(sum) ? sum : Number.POSITIVE_INFINITY;
}
