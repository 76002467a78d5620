import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { agreement } from './belongs.js';
import { median, smallest } from './picture.js';
import { biweights, powersOf, weightedFit } from './polynomial.js';
import { derivativeAt, onSheet, pixelsPerMm, type Shift, shiftAt } from './sheet-map.js';

describe('order', () => {
  it('the k-th smallest and the median are those of sorting', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -20, max: 20 }), { minLength: 1, maxLength: 60 }),
        fc.nat(59),
        (values, k) => {
          const sorted = values.toSorted((a, b) => a - b);
          const at = k % values.length;
          expect(smallest(Float64Array.from(values), values.length, at)).toBe(sorted[at]);
          const [low, high] = [sorted[(sorted.length - 1) >> 1]!, sorted[sorted.length >> 1]!];
          expect(median(values)).toBe((low + high) / 2);
        },
      ),
    );
  });

  it('rank correlation is that of a published example', () => {
    // Intelligence and hours of television of ten people, ρ = −29/165: the worked example of the encyclopaedia's
    // article on Spearman's coefficient (figures from memory; the ranks can be checked by hand).
    const asked = [106, 100, 86, 101, 99, 103, 97, 113, 112, 110];
    const seen = [7, 27, 2, 50, 28, 29, 20, 12, 6, 17];
    const patches = asked.map((grey, i) => {
      const light = seen[i]! / 100;
      return { deviceRgb: [grey, grey, grey], rgb: [light, light, light] as const };
    });
    expect(agreement(patches)).toBeCloseTo(-29 / 165, 12);
    expect(agreement(patches.map(({ rgb }) => ({ deviceRgb: rgb.map((v) => 255 * v), rgb })))).toBeCloseTo(
      1,
      12,
    );
  });
});

describe('fits', () => {
  it('least squares gives NIST’s certified slope of NoInt1', () => {
    // NIST StRD, linear regression, NoInt1: y = 130…140 at x = 60…70 without constant; B1 = 2.07438016528926.
    const x = Array.from({ length: 11 }, (_, i) => 60 + i);
    const fit = weightedFit(
      x.map((v) => [v]),
      x.map((v) => v + 70),
      x.map(() => 1),
    );
    expect(fit![0]).toBeCloseTo(2.07438016528926, 13);
  });

  it('a polynomial comes back through wild values', () => {
    const random = createRandom(4);
    const truth = [0.3, -0.2, 0.1, 0.05, -0.07, 0.02];
    const rows = Array.from({ length: 200 }, () =>
      powersOf(2, 2 * random.uniform() - 1, 2 * random.uniform() - 1),
    );
    const values = rows.map(
      (row, i) =>
        row.reduce((sum, v, k) => sum + v * truth[k]!, 0) +
        0.001 * random.normal() +
        (i % 10 === 0 ? 0.8 : 0),
    );
    let weights = values.map(() => 1);
    let fit = new Float64Array(6);
    for (let round = 0; round < 12; round += 1) {
      fit = Float64Array.from(weightedFit(rows, values, weights)!);
      weights = biweights(
        rows.map((row, i) => values[i]! - row.reduce((sum, v, k) => sum + v * fit[k]!, 0)),
        1e-4,
      );
    }
    truth.forEach((v, k) => {
      expect(Math.abs(fit[k]! - v)).toBeLessThan(0.001);
    });
    expect(weightedFit([[1, 1]], [1], [1])).toBe(null);
  });
});

describe('movement of the sheet', () => {
  const grid = (by: (x: number, y: number) => { x: number; y: number }): Shift[] =>
    Array.from({ length: 30 }, (_, i) => {
      const at = { x: 40 * (i % 5), y: 40 * Math.floor(i / 5) };
      return { at, by: by(at.x, at.y) };
    });

  it('between known places is that of a bend', () => {
    const bend = (x: number, y: number): { x: number; y: number } => ({
      x: 1.5 * Math.sin((Math.PI * x) / 160) * Math.sin((Math.PI * y) / 200),
      y: 0.4,
    });
    const known = grid(bend);
    for (let i = 0; i < 40; i += 1) {
      const at = { x: 20 + 3 * i, y: 20 + 4 * i };
      const said = shiftAt(known, at, 40);
      // Patches' edges mend what is left.
      expect(Math.abs(said.x - bend(at.x, at.y).x)).toBeLessThan(0.6);
      expect(said.y).toBeCloseTo(0.4, 6);
    }
  });

  it('of nothing known is none', () => {
    expect(shiftAt([], { x: 1, y: 2 }, 40)).toEqual({ x: 0, y: 0 });
  });

  it('goes from picture to sheet through the plane’s derivative, mirrored or not', () => {
    const d = derivativeAt([-12, 0.5, 300, 0.4, 11.5, 20, 0, 0, 1], { x: 50, y: 70 });
    expect(pixelsPerMm(d)).toBeCloseTo(Math.sqrt(12 * 11.5 + 0.2), 9);
    const back = onSheet(d, { x: -12 * 0.3 + 0.5 * -0.2, y: 0.4 * 0.3 + 11.5 * -0.2 });
    expect(back.x).toBeCloseTo(0.3, 9);
    expect(back.y).toBeCloseTo(-0.2, 9);
  });
});
