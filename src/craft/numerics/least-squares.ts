export interface LeastSquares {
  readonly coefficients: Float64Array;
  readonly standardErrors: Float64Array;
  /** Standard errors for rows whose residuals had a variance of one over their weight. */
  readonly unitErrors: Float64Array;
  /** Square root of the residual sum of squares over the degrees of freedom; NaN when none are left. */
  readonly residualSd: number;
  readonly residuals: Float64Array;
  readonly freedom: number;
}

/**
 * Ordinary or weighted least squares by Householder's QR (Golub & Van Loan, Matrix Computations, 4th ed., 5.2.2), which
 * keeps the digits that normal equations lose.
 * @param weights one over the variance of each row, up to a common factor; all alike when absent
 * @returns null when the rows do not determine the coefficients
 */
export function leastSquares(
  rows: readonly (readonly number[])[],
  values: readonly number[],
  weights?: readonly number[],
): LeastSquares | null {
  const n = rows.length;
  const p = rows[0]?.length ?? 0;
  if (n < p || p === 0) return null;
  const root = (i: number): number => Math.sqrt(weights?.[i] ?? 1);
  const a = rows.map((row, i) => Float64Array.from(row, (v) => v * root(i)));
  const b = Float64Array.from(values, (v, i) => v * root(i));
  const largest = Math.max(...a.map((row) => Math.max(...row.map(Math.abs))));
  for (let k = 0; k < p; k += 1) {
    let norm = 0;
    for (let i = k; i < n; i += 1) norm = Math.hypot(norm, a[i]![k]!);
    if (!(norm > 1e-12 * largest)) return null;
    const alpha = a[k]![k]! > 0 ? -norm : norm;
    const v = new Float64Array(n);
    for (let i = k; i < n; i += 1) v[i] = a[i]![k]!;
    v[k] = v[k]! - alpha;
    let vv = 0;
    for (let i = k; i < n; i += 1) vv += v[i]! * v[i]!;
    for (let j = k; j < p; j += 1) {
      let dot = 0;
      for (let i = k; i < n; i += 1) dot += v[i]! * a[i]![j]!;
      for (let i = k; i < n; i += 1) a[i]![j] = a[i]![j]! - (2 * dot * v[i]!) / vv;
    }
    let dot = 0;
    for (let i = k; i < n; i += 1) dot += v[i]! * b[i]!;
    for (let i = k; i < n; i += 1) b[i] = b[i]! - (2 * dot * v[i]!) / vv;
  }
  const coefficients = backSubstitute(a, b, p);
  const residuals = Float64Array.from(values, (value, i) =>
    rows[i]!.reduce((left, x, j) => left - x * coefficients[j]!, value),
  );
  const squares = residuals.reduce((sum, r, i) => sum + (root(i) * r) ** 2, 0);
  const freedom = n - p;
  const residualSd = freedom > 0 ? Math.sqrt(squares / freedom) : Number.NaN;
  // Column j of R⁻¹ solves R x = e_j; the covariance is R⁻¹ R⁻ᵀ s².
  const variance = new Float64Array(p);
  for (let j = 0; j < p; j += 1) {
    const unit = new Float64Array(p);
    unit[j] = 1;
    const column = backSubstitute(a, unit, p);
    for (let i = 0; i < p; i += 1) variance[i] = variance[i]! + column[i]! ** 2;
  }
  return {
    coefficients,
    standardErrors: variance.map((v) => Math.sqrt(v) * residualSd),
    unitErrors: variance.map(Math.sqrt),
    residualSd,
    residuals,
    freedom,
  };
}

function backSubstitute(r: readonly Float64Array[], b: ArrayLike<number>, p: number): Float64Array {
  const x = new Float64Array(p);
  for (let i = p - 1; i >= 0; i -= 1) {
    let sum = b[i]!;
    for (let j = i + 1; j < p; j += 1) sum -= r[i]![j]! * x[j]!;
    x[i] = sum / r[i]![i]!;
  }
  return x;
}
