import { describe, expect, it } from 'vitest';
import { exchange, logDeterminant } from './exchange.js';
import { logDose } from './kinetics.js';
import { leastSquares } from './least-squares.js';
import { logNormalCdf, normalCdf } from './normal.js';
import { quadraticSurface } from './quadratic-surface.js';

describe('held to published figures', () => {
  it('fits the central composite example of Montgomery, Design and Analysis of Experiments', () => {
    const c = Math.SQRT2;
    const points = [
      [-1, -1],
      [-1, 1],
      [1, -1],
      [1, 1],
      [0, 0],
      [0, 0],
      [0, 0],
      [0, 0],
      [0, 0],
      [c, 0],
      [-c, 0],
      [0, c],
      [0, -c],
    ];
    const values = [76.5, 77, 78, 79.5, 79.9, 80.3, 80, 79.7, 79.8, 78.4, 75.6, 78.5, 77];
    const surface = quadraticSurface(points, values)!;
    const published = [79.94, 0.99505, 0.5152, -1.37645, -1.00134, 0.25];
    published.forEach((b, i) => {
      // The book rounds the axial distance to 1.414.
      expect(Math.abs(surface.fit.coefficients[i]! - b)).toBeLessThan(5e-4);
    });
    expect(surface.stationary!.coded[0]).toBeCloseTo(0.3892, 3);
    expect(surface.stationary!.coded[1]).toBeCloseTo(0.3058, 3);
    expect(surface.stationary!.value).toBeCloseTo(80.21, 2);
  });

  it.each([
    [80, 1.55],
    [100, 1.73],
    [120, 1.93],
    [150, 2.28],
  ])('190 to 200 °C at %d kJ/mol is %d times the dose (Arrhenius)', (activationKJPerMol, factor) => {
    const law = { activationKJPerMol, pressureExponent: 0, referenceC: 195, referencePressureBar: 1 };
    const at = (platenC: number): number => logDose({ platenC, dwellSeconds: 50 }, law);
    expect(Math.exp(at(200) - at(190))).toBeCloseTo(factor, 2);
  });

  it('has the normal distribution of tables: Φ(1.96) = 0.9750021, Φ(−1) = 0.1586553, ln Φ(−10) = −53.23129 (from memory)', () => {
    expect(normalCdf(1.96)).toBeCloseTo(0.9750021, 6);
    expect(normalCdf(-1)).toBeCloseTo(0.1586553, 6);
    expect(logNormalCdf(-10)).toBeCloseTo(-53.23129, 4);
  });

  it('finds least squares no worse than exact rational arithmetic on a line with known answers', () => {
    // Anscombe, Am. Stat. 27 (1973), set 1 (from memory): 3.0001 + 0.5001 x, standard errors 1.1247 and 0.1179.
    const x = [10, 8, 13, 9, 11, 14, 6, 4, 12, 7, 5];
    const y = [8.04, 6.95, 7.58, 8.81, 8.33, 9.96, 7.24, 4.26, 10.84, 4.82, 5.68];
    const fit = leastSquares(
      x.map((v) => [1, v]),
      y,
    )!;
    expect(fit.coefficients[0]).toBeCloseTo(3.0001, 4);
    expect(fit.coefficients[1]).toBeCloseTo(0.5001, 4);
    expect(fit.standardErrors[0]).toBeCloseTo(1.1247, 4);
    expect(fit.standardErrors[1]).toBeCloseTo(0.1179, 4);
  });

  it.each([6, 7, 8])(
    '%d points chosen by exchange are as good as the best of every possible choice',
    (count) => {
      const candidates = [-1, 0, 1].flatMap((a) => [-1, 0, 1].map((b) => [1, a, b, a * a, b * b, a * b]));
      const of = (chosen: readonly number[]): number => logDeterminant(chosen.map((i) => candidates[i]!));
      let best = Number.NEGATIVE_INFINITY;
      const every = (chosen: number[]): void => {
        if (chosen.length === count) best = Math.max(best, of(chosen));
        else for (let i = chosen.at(-1) ?? 0; i < 9; i += 1) every([...chosen, i]);
      };
      every([]);
      expect(of(exchange(candidates, count, 3))).toBeCloseTo(best, 9);
    },
  );
});
