import { describe, expect, it } from 'vitest';
import { createRandom } from '#craft/numerics';
import { costOfOrder, type RepairStep, repairPlan } from './repair-plan.js';
import { worldsOf } from './worlds.js';

const oneFault = (size: number) => worldsOf(size, 1).slice(1);
const sure = (costs: readonly number[]): RepairStep[] =>
  costs.map((cost, s) => ({ cost, cures: costs.map((_, i) => (i === s ? 1 : 0)) }));

function permutations(items: readonly number[]): number[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((first) =>
    permutations(items.filter((other) => other !== first)).map((rest) => [first, ...rest]),
  );
}

describe('one fault, sure steps (expected cost of repair as in Breese & Heckerman, 1996)', () => {
  // Constructed and worked by hand: p = .4 .3 .2 .1, C = 8 3 1 2.
  const chances = [0.4, 0.3, 0.2, 0.1];
  const steps = sure([8, 3, 1, 2]);
  const worlds = oneFault(4);

  it('costs 7.6 in the best order, 10.3 as written, 10.9 at worst', () => {
    const plan = repairPlan(worlds, chances, steps, Number.POSITIVE_INFINITY);
    expect(plan.order.slice(0, 2)).toEqual([2, 1]);
    expect(plan.expectedCost).toBeCloseTo(7.6, 12);
    expect(plan.chanceOfCure).toBeCloseTo(1, 12);
    const cost = (order: number[]) => costOfOrder(worlds, chances, steps, order).expectedCost;
    expect(cost([0, 1, 2, 3])).toBeCloseTo(10.3, 12);
    const all = permutations([0, 1, 2, 3]).map(cost);
    expect(Math.max(...all)).toBeCloseTo(10.9, 12);
    expect(Math.min(...all)).toBeCloseTo(7.6, 12);
  });

  it('is never beaten by another order, on random cases with unsure steps (Kadane & Simon 1977)', () => {
    const random = createRandom(5);
    for (let k = 0; k < 40; k += 1) {
      const raw = [1, 2, 3, 4, 5].map(() => random.uniform());
      const sum = raw.reduce((a, b) => a + b, 0);
      const p = raw.map((value) => value / sum);
      const unsure = p.map((_, s) => ({
        cost: 1 + 9 * random.uniform(),
        cures: p.map((__, i) => (i === s ? 0.2 + 0.8 * random.uniform() : 0)),
      }));
      const best = Math.min(
        ...permutations([0, 1, 2, 3, 4]).map((order) => {
          const { expectedCost, neverGone } = costOfOrder(oneFault(5), p, unsure, order);
          return expectedCost + 1e4 * neverGone;
        }),
      );
      expect(repairPlan(oneFault(5), p, unsure, 1e4).expectedCost).toBeCloseTo(best, 6);
    }
  });
});

describe('two faults', () => {
  it('costs what playing it through costs on average', () => {
    const worlds = worldsOf(3, 2);
    const chances = [0.05, 0.2, 0.15, 0.1, 0.2, 0.2, 0.1];
    const steps = [
      { cost: 2, cures: [0.8, 0, 0.3] },
      { cost: 3, cures: [0, 0.7, 0] },
      { cost: 5, cures: [0.5, 0, 0.9] },
    ];
    const random = createRandom(9);
    const games = 60_000;
    const upTo = chances.map((_, w) => chances.slice(0, w + 1).reduce((a, b) => a + b, 0));
    upTo[upTo.length - 1] = 1;
    let spent = 0;
    let open = 0;
    for (let game = 0; game < games; game += 1) {
      const at = random.uniform();
      let present = [...worlds[upTo.findIndex((sum) => at < sum)]!];
      let isGone = false;
      for (const step of steps) {
        if (isGone) break;
        spent += step.cost;
        const before = present.length;
        present = present.filter((cause) => random.uniform() >= step.cures[cause]!);
        isGone = before > 0 && present.length === 0;
      }
      if (!isGone) open += 1;
    }
    const { expectedCost, neverGone } = costOfOrder(worlds, chances, steps, [0, 1, 2]);
    expect(Math.abs(spent / games - expectedCost)).toBeLessThan(0.05);
    expect(Math.abs(open / games - neverGone)).toBeLessThan(0.01);
  });

  it('gives up where a step costs more than it can save', () => {
    const plan = repairPlan([[0]], [1], [{ cost: 50, cures: [0.2] }], 100);
    expect(plan).toEqual({ order: [], expectedCost: 100, chanceOfCure: 0 });
  });
});
