/**
 * Solves the tridiagonal system in place (Thomas algorithm; no pivoting, so the diagonal must dominate, as that of
 * conduction does). `lower[i]` stands left of `diagonal[i]`, `upper[i]` right of it. Returns x in `right`;
 * `diagonal` is spoilt.
 */
export function solveTridiagonal(
  lower: Float64Array,
  diagonal: Float64Array,
  upper: Float64Array,
  right: Float64Array,
  count: number,
): void {
  for (let i = 1; i < count; i += 1) {
    const m = lower[i]! / diagonal[i - 1]!;
    diagonal[i] = diagonal[i]! - m * upper[i - 1]!;
    right[i] = right[i]! - m * right[i - 1]!;
  }
  right[count - 1] = right[count - 1]! / diagonal[count - 1]!;
  for (let i = count - 2; i >= 0; i -= 1) right[i] = (right[i]! - upper[i]! * right[i + 1]!) / diagonal[i]!;
}
