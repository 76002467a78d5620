import { describe, expect, it } from 'vitest';
import { leastSquares } from './least-squares.js';
import { robustLeastSquares } from './robust-least-squares.js';

/** NIST Statistical Reference Datasets, Norris (observed; ozone monitors), linear regression, lower difficulty. */
const norris = {
  x: [
    0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777, 558.2, 0.4, 0.6, 775.5, 666.9, 338,
    447.5, 11.6, 556, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999, 779, 11.1, 118.3, 229.2,
    669.1, 448.9, 0.5,
  ],
  y: [
    0.1, 338.8, 118.1, 888, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3,
    448.9, 10.8, 557.7, 228.3, 998, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888, 998.5, 778.9, 10.2, 117.6,
    228.9, 668.4, 449.2, 0.2,
  ],
};

/** Brownlee's stack loss plant (Statistical Theory and Methodology, 1965), as R's `stackloss`: air, water, acid; loss. */
const stack = {
  air: [80, 80, 75, 62, 62, 62, 62, 62, 58, 58, 58, 58, 58, 58, 50, 50, 50, 50, 50, 56, 70],
  water: [27, 27, 25, 24, 22, 23, 24, 24, 23, 18, 18, 17, 18, 19, 18, 18, 19, 19, 20, 20, 20],
  acid: [89, 88, 90, 87, 87, 87, 93, 93, 87, 80, 89, 88, 82, 93, 89, 86, 72, 79, 80, 82, 91],
  loss: [42, 37, 37, 28, 18, 18, 19, 20, 15, 14, 14, 13, 11, 12, 8, 7, 8, 8, 9, 15, 15],
};
const stackRows = stack.air.map((air, i) => [1, air, stack.water[i]!, stack.acid[i]!]);

describe('least squares', () => {
  it('has the certified values of NIST StRD Norris', () => {
    const fit = leastSquares(
      norris.x.map((x) => [1, x]),
      norris.y,
    )!;
    expect(fit.coefficients[0]).toBeCloseTo(-0.262323073774029, 11);
    expect(fit.coefficients[1]).toBeCloseTo(1.00211681802045, 13);
    expect(fit.standardErrors[0]).toBeCloseTo(0.232818234301152, 12);
    expect(fit.standardErrors[1]).toBeCloseTo(0.429796848199937e-3, 14);
    expect(fit.residualSd).toBeCloseTo(0.884796396144373, 12);
  });

  it('has the figures R’s lm gives for the stack loss plant', () => {
    const fit = leastSquares(stackRows, stack.loss)!;
    [-39.9197, 0.7156, 1.2953, -0.1521].forEach((b, i) => {
      expect(fit.coefficients[i]).toBeCloseTo(b, 4);
    });
    [11.896, 0.1349, 0.368, 0.1563].forEach((e, i) => {
      expect(fit.standardErrors[i]).toBeCloseTo(e, 4);
    });
    expect(fit.residualSd).toBeCloseTo(3.243, 3);
  });

  it('robust: has the figures of R’s MASS::rlm with psi.bisquare for the stack loss plant', () => {
    const { fit, scale, belief } = robustLeastSquares(stackRows, stack.loss)!;
    // rlm stops when the residuals move by less than 1e-4, so its printed digits are not all settled.
    [-42.2852537, 0.9275471, 0.6507322, -0.112331].forEach((b, i) => {
      expect(Math.abs(fit.coefficients[i]! / b - 1)).toBeLessThan(1e-3);
    });
    expect(scale).toBeCloseTo(2.28, 2);
    // Rows 4 and 21 are the plant's well-known outliers.
    const least = Array.from(belief.keys()).toSorted((a, b) => belief[a]! - belief[b]!);
    expect(least.slice(0, 2)).toEqual([20, 3]);
  });
});
