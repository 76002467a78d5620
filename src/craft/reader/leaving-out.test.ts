import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { estimateAt, fitLinear, leftOutLinear } from './linear-fit.js';
import { conditionProcess, leftOutProcess, processAt } from './process.js';
import { rankCorrelation } from './rank-correlation.js';
import { cubeRootTerms } from './terms.js';

const random = createRandom(12);
const rgb = Array.from(
  { length: 40 },
  () => [random.uniform(), random.uniform(), random.uniform()] as [number, number, number],
);
const y = rgb.map(([r, g, b]) => 100 * Math.cbrt(0.3 * r + 0.6 * g + 0.1 * b) + random.normal());
const weight = rgb.map((_, i) => 1 + (i % 3));
const groups = [[0, 7, 9], [1, 2], ...rgb.map((_, i) => [i]).filter(([i]) => ![0, 1, 2, 7, 9].includes(i!))];
const without = <T>(items: readonly T[], group: readonly number[]): T[] =>
  items.filter((_, i) => !group.includes(i));

// The short cuts of leaving out must be what fitting anew without the group gives.
describe('leaving out by algebra is leaving out', () => {
  it('for ridge fits', () => {
    const rows = rgb.map(cubeRootTerms(2));
    const said = leftOutLinear(fitLinear(rows, y, weight, 0, 0)!, rows, y, weight, groups);
    for (const group of groups) {
      const fit = fitLinear(without(rows, group), without(y, group), without(weight, group), 0, 0)!;
      for (const i of group) expect(said[i]).toBeCloseTo(estimateAt(fit, rows[i]!), 4);
    }
  });

  it('for the process, and its variance with the pair’s own scatter', () => {
    const parameters = { reach: [0.5, 0.4, 0.8], sd: 3, noiseSd: 0.8 } as const;
    const trend = rgb.map(cubeRootTerms(2));
    const multiple = weight.map((w) => 1 / w);
    const { said, variance } = leftOutProcess(
      conditionProcess(parameters, rgb, trend, y, multiple),
      y,
      groups,
    );
    for (const group of groups) {
      const rest = conditionProcess(
        parameters,
        without(rgb, group),
        without(trend, group),
        without(y, group),
        without(multiple, group),
      );
      for (const i of group) {
        const at = processAt(rest, rgb[i]!, trend[i]!);
        expect(said[i]).toBeCloseTo(at.mean, 4);
        if (group.length === 1) expect(variance[i]).toBeCloseTo(at.variance + 0.64 * multiple[i]!, 4);
      }
    }
  });
});

describe('rank correlation', () => {
  it('is that of the textbook example: IQ and hours of television, −29/165 (Wikipedia, Spearman’s rank correlation)', () => {
    const iq = [106, 100, 86, 101, 99, 103, 97, 113, 112, 110];
    const hours = [7, 27, 2, 50, 28, 29, 20, 12, 6, 17];
    expect(rankCorrelation(iq, hours)).toBeCloseTo(-29 / 165, 12);
  });

  it('shares ranks among equals and is nought without variety', () => {
    expect(rankCorrelation([1, 1, 2, 2], [5, 5, 9, 9])).toBeCloseTo(1, 12);
    expect(rankCorrelation([1, 1, 1], [1, 2, 3])).toBe(0);
  });
});
