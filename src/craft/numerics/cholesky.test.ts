import { describe, expect, it } from 'vitest';
import { choleskyInPlace, inverseFromCholesky, solveCholesky } from './cholesky.js';
import { createRandom } from './random.js';

/** B Bᵀ + n I: symmetric and positive definite. */
function positive(n: number, seed: number): Float64Array {
  const random = createRandom(seed);
  const b = Float64Array.from({ length: n * n }, () => random.normal());
  const a = new Float64Array(n * n);
  for (let i = 0; i < n; i += 1)
    for (let j = 0; j < n; j += 1) {
      let sum = i === j ? n : 0;
      for (let k = 0; k < n; k += 1) sum += b[i * n + k]! * b[j * n + k]!;
      a[i * n + j] = sum;
    }
  return a;
}

describe('Cholesky', () => {
  it('gives the textbook factor of 4 12 −16 / 12 37 −43 / −16 −43 98: 2 / 6 1 / −8 5 3', () => {
    const a = Float64Array.of(4, 12, -16, 12, 37, -43, -16, -43, 98);
    expect(choleskyInPlace(a, 3)).toBe(true);
    expect([a[0], a[3], a[4], a[6], a[7], a[8]]).toEqual([2, 6, 1, -8, 5, 3]);
  });

  it('inverts the 4 × 4 Hilbert matrix to its known whole numbers', () => {
    const a = Float64Array.from({ length: 16 }, (_, i) => 1 / (Math.floor(i / 4) + (i % 4) + 1));
    choleskyInPlace(a, 4);
    // Savage & Lukacs 1954; also OEIS A189766.
    const known = [
      16, -120, 240, -140, -120, 1200, -2700, 1680, 240, -2700, 6480, -4200, -140, 1680, -4200, 2800,
    ];
    inverseFromCholesky(a, 4).forEach((v, i) => {
      expect(v).toBeCloseTo(known[i]!, 6);
    });
  });

  // Around and beyond the block of 48.
  it.each([1, 2, 5, 47, 48, 49, 131])('solves and inverts a random system of %d unknowns', (n) => {
    const a = positive(n, n);
    const l = a.slice();
    expect(choleskyInPlace(l, n)).toBe(true);
    const x = Float64Array.from({ length: n }, (_, i) => Math.sin(i + 1));
    const b = Float64Array.from({ length: n }, (_, i) => x.reduce((sum, v, j) => sum + a[i * n + j]! * v, 0));
    solveCholesky(l, n, b).forEach((v, i) => {
      expect(v).toBeCloseTo(x[i]!, 9);
    });
    const inverse = inverseFromCholesky(l, n);
    for (let i = 0; i < n; i += 7)
      for (let j = 0; j < n; j += 5) {
        let sum = 0;
        for (let k = 0; k < n; k += 1) sum += inverse[i * n + k]! * a[k * n + j]!;
        expect(sum).toBeCloseTo(i === j ? 1 : 0, 9);
      }
  });

  it('says when a matrix is not positive definite', () => {
    expect(choleskyInPlace(Float64Array.of(1, 2, 2, 1), 2)).toBe(false);
    expect(choleskyInPlace(Float64Array.of(Number.NaN), 1)).toBe(false);
  });
});
