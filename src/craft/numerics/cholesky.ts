/**
 * Dense symmetric positive definite systems. Matrices are n × n, row-major; only the lower triangle (with the
 * diagonal) of symmetric ones is read. Written so that the inner loops run along rows (Golub & Van Loan, Matrix
 * Computations, 4.2, the left-looking blocked form).
 */

const block = 48;

/**
 * A = L Lᵀ, L written over the lower triangle; the upper one is left as it was.
 * @returns false if A is not (numerically) positive definite; its contents are then spoilt
 */
export function choleskyInPlace(a: Float64Array, n: number): boolean {
  for (let start = 0; start < n; start += block) {
    const end = Math.min(n, start + block);
    if (start > 0) subtractDoneColumns(a, n, start, end);
    for (let j = start; j < end; j += 1) {
      const rowJ = j * n;
      let diagonal = a[rowJ + j]!;
      for (let k = start; k < j; k += 1) diagonal -= a[rowJ + k]! * a[rowJ + k]!;
      if (!(diagonal > 0) || diagonal === Number.POSITIVE_INFINITY) return false;
      const root = Math.sqrt(diagonal);
      a[rowJ + j] = root;
      const inverse = 1 / root;
      for (let i = j + 1; i < n; i += 1) {
        const rowI = i * n;
        let sum = a[rowI + j]!;
        for (let k = start; k < j; k += 1) sum -= a[rowI + k]! * a[rowJ + k]!;
        a[rowI + j] = sum * inverse;
      }
    }
  }
  return true;
}

/** A[i, j] −= Σₖ L[i, k] L[j, k] over the columns k < start already done, for the columns start ≤ j < end. */
function subtractDoneColumns(a: Float64Array, n: number, start: number, end: number): void {
  for (let i = start; i < n; i += 1) {
    const rowI = i * n;
    const last = Math.min(end, i + 1);
    let j = start;
    for (; j + 3 < last; j += 4) {
      const row0 = j * n;
      const row1 = row0 + n;
      const row2 = row1 + n;
      const row3 = row2 + n;
      let s0 = 0;
      let s1 = 0;
      let s2 = 0;
      let s3 = 0;
      for (let k = 0; k < start; k += 1) {
        const v = a[rowI + k]!;
        s0 += v * a[row0 + k]!;
        s1 += v * a[row1 + k]!;
        s2 += v * a[row2 + k]!;
        s3 += v * a[row3 + k]!;
      }
      a[rowI + j] = a[rowI + j]! - s0;
      a[rowI + j + 1] = a[rowI + j + 1]! - s1;
      a[rowI + j + 2] = a[rowI + j + 2]! - s2;
      a[rowI + j + 3] = a[rowI + j + 3]! - s3;
    }
    for (; j < last; j += 1) {
      const rowJ = j * n;
      let s = 0;
      for (let k = 0; k < start; k += 1) s += a[rowI + k]! * a[rowJ + k]!;
      a[rowI + j] = a[rowI + j]! - s;
    }
  }
}

/** x with L x = b. */
export function solveLower(
  l: Float64Array,
  n: number,
  b: Float64Array,
  x: Float64Array = new Float64Array(n),
): Float64Array {
  for (let i = 0; i < n; i += 1) {
    const row = i * n;
    let sum = b[i]!;
    for (let k = 0; k < i; k += 1) sum -= l[row + k]! * x[k]!;
    x[i] = sum / l[row + i]!;
  }
  return x;
}

/** x with Lᵀ x = b. `b` and `x` may be the same array. */
export function solveLowerTransposed(
  l: Float64Array,
  n: number,
  b: Float64Array,
  x: Float64Array = new Float64Array(n),
): Float64Array {
  if (x !== b) x.set(b);
  for (let i = n - 1; i >= 0; i -= 1) {
    const row = i * n;
    const value = x[i]! / l[row + i]!;
    x[i] = value;
    for (let k = 0; k < i; k += 1) x[k] = x[k]! - l[row + k]! * value;
  }
  return x;
}

/** x with A x = b, where A = L Lᵀ. */
export function solveCholesky(l: Float64Array, n: number, b: Float64Array): Float64Array {
  const x = solveLower(l, n, b);
  return solveLowerTransposed(l, n, x, x);
}

/** L⁻¹ over L, lower triangle. */
export function invertLowerInPlace(l: Float64Array, n: number): void {
  const row = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    const at = i * n;
    row.fill(0, 0, i + 1);
    for (let j = 0; j < i; j += 1) {
      const v = l[at + j]!;
      const rowJ = j * n;
      for (let k = 0; k <= j; k += 1) row[k] = row[k]! - v * l[rowJ + k]!;
    }
    const inverse = 1 / l[at + i]!;
    for (let k = 0; k < i; k += 1) l[at + k] = row[k]! * inverse;
    l[at + i] = inverse;
  }
}

/** A⁻¹ from L, both triangles filled. */
export function inverseFromCholesky(l: Float64Array, n: number): Float64Array {
  const lower = l.slice();
  invertLowerInPlace(lower, n);
  const inverse = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1) {
    const at = i * n;
    for (let a = 0; a <= i; a += 1) {
      const v = lower[at + a]!;
      const rowA = a * n;
      for (let b = 0; b <= a; b += 1) inverse[rowA + b] = inverse[rowA + b]! + v * lower[at + b]!;
    }
  }
  for (let a = 0; a < n; a += 1) {
    for (let b = 0; b < a; b += 1) inverse[b * n + a] = inverse[a * n + b]!;
  }
  return inverse;
}
