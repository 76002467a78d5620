import type { Triple, Triple3 } from './triple.js';

/** 3 × 3, row-major. */
export type Matrix3 = readonly [number, number, number, number, number, number, number, number, number];

export function applyMatrix(m: Matrix3, v: Triple): Triple3 {
  return [
    m[0] * v[0] + m[1] * v[1] + m[2] * v[2],
    m[3] * v[0] + m[4] * v[1] + m[5] * v[2],
    m[6] * v[0] + m[7] * v[1] + m[8] * v[2],
  ];
}

/** a · b: first b is applied, then a. */
export function multiplyMatrices(a: Matrix3, b: Matrix3): Matrix3 {
  const cell = (row: 0 | 3 | 6, column: 0 | 1 | 2): number =>
    a[row] * b[column] + a[(row + 1) as 1] * b[(column + 3) as 3] + a[(row + 2) as 2] * b[(column + 6) as 6];
  return [
    cell(0, 0),
    cell(0, 1),
    cell(0, 2),
    cell(3, 0),
    cell(3, 1),
    cell(3, 2),
    cell(6, 0),
    cell(6, 1),
    cell(6, 2),
  ];
}

/** Null if the matrix has no usable inverse. */
export function invertMatrix(m: Matrix3): Matrix3 | null {
  const c0 = m[4] * m[8] - m[5] * m[7];
  const c1 = m[5] * m[6] - m[3] * m[8];
  const c2 = m[3] * m[7] - m[4] * m[6];
  const determinant = m[0] * c0 + m[1] * c1 + m[2] * c2;
  if (!Number.isFinite(determinant) || Math.abs(determinant) < 1e-12) return null;
  const k = 1 / determinant;
  return [
    c0 * k,
    (m[2] * m[7] - m[1] * m[8]) * k,
    (m[1] * m[5] - m[2] * m[4]) * k,
    c1 * k,
    (m[0] * m[8] - m[2] * m[6]) * k,
    (m[2] * m[3] - m[0] * m[5]) * k,
    c2 * k,
    (m[1] * m[6] - m[0] * m[7]) * k,
    (m[0] * m[4] - m[1] * m[3]) * k,
  ];
}

/** The inverse of a matrix known to have one (a published one). */
export function inverseOf(m: Matrix3): Matrix3 {
  const inverse = invertMatrix(m);
  if (inverse === null) throw new RangeError('a published matrix without an inverse');
  return inverse;
}
