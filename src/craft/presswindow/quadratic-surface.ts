import { type LeastSquares, leastSquares } from './least-squares.js';

/** Coded levels of a coupon: 0 the middle of the range, ±1 its ends. */
export type Coded = readonly number[];

/** Terms of a response surface, in this order: 1, each factor, each square, each product of two. */
export function quadraticTerms(coded: Coded): number[] {
  const terms = [1, ...coded, ...coded.map((v) => v * v)];
  for (let i = 0; i < coded.length; i += 1)
    for (let j = i + 1; j < coded.length; j += 1) terms.push(coded[i]! * coded[j]!);
  return terms;
}

export interface QuadraticSurface {
  readonly fit: LeastSquares;
  /** Where the slope is nothing: a top, a bottom or a saddle. Null when there is no such place. */
  readonly stationary: { readonly coded: number[]; readonly value: number } | null;
}

/**
 * Second-order response surface in one or two factors by least squares (Montgomery, Design and Analysis of Experiments,
 * chapter 11; stationary point from ∂y/∂x = 0).
 * @returns null when the points do not determine it
 */
export function quadraticSurface(
  points: readonly Coded[],
  values: readonly number[],
): QuadraticSurface | null {
  const fit = leastSquares(points.map(quadraticTerms), values);
  if (fit === null) return null;
  const b = fit.coefficients;
  let coded: number[] | null = null;
  if (points[0]!.length === 1) coded = b[2] === 0 ? null : [-b[1]! / (2 * b[2]!)];
  if (points[0]!.length === 2) {
    const [ga, gb, qa, qb, ab] = [b[1]!, b[2]!, b[3]!, b[4]!, b[5]!];
    const determinant = 4 * qa * qb - ab * ab;
    if (determinant !== 0)
      coded = [(-2 * qb * ga + ab * gb) / determinant, (-2 * qa * gb + ab * ga) / determinant];
  }
  if (coded === null) return { fit, stationary: null };
  const value = quadraticTerms(coded).reduce((sum, term, i) => sum + term * b[i]!, 0);
  return { fit, stationary: { coded, value } };
}
