import { describe, expect, it } from 'vitest';
import { type LadderRequest, planLadder } from './plan-ladder.js';

const limits = { platenC: [185, 210], dwellSeconds: [20, 120], pressureBar: [1, 4] } as const;
const base: LadderRequest = {
  coupons: 9,
  factors: [{ kind: 'time' }],
  start: { platenC: 200, dwellSeconds: 50 },
  limits,
  seed: 4,
};

describe('ladders', () => {
  it('keep to count, limits, a replicate and few changes of temperature, whatever is asked', () => {
    for (let coupons = 4; coupons <= 16; coupons += 1)
      for (const kinds of [
        ['time'],
        ['temperature'],
        ['pressure'],
        ['time', 'temperature'],
        ['time', 'pressure'],
        ['temperature', 'pressure'],
      ] as const) {
        const plan = planLadder({ ...base, coupons, factors: kinds.map((kind) => ({ kind })) });
        expect(plan.coupons).toHaveLength(coupons);
        expect(new Set(plan.coupons.map((c) => c.alike)).size).toBeLessThan(coupons);
        for (const { step } of plan.coupons) {
          expect(step.platenC).toBeGreaterThanOrEqual(185);
          expect(step.platenC).toBeLessThanOrEqual(210);
          expect(step.dwellSeconds).toBeGreaterThanOrEqual(20);
          expect(step.dwellSeconds).toBeLessThanOrEqual(120);
        }
        const temperatures = new Set(plan.coupons.map(({ step }) => step.platenC));
        expect(plan.temperatureChanges).toBe(temperatures.size - 1);
      }
  });

  it.each([
    [{ coupons: 3 }, /4 to 16/],
    [{ factors: [] }, /one or two/],
    [{ factors: [{ kind: 'time' }, { kind: 'time' }] }, /the same/],
    [{ factors: [{ kind: 'time', range: [10, 60] }] }, /maker allows/],
    [{ factors: [{ kind: 'temperature', range: [198, 202] }] }, /too narrow/],
    [{ factors: [{ kind: 'time', range: [60, 30] }] }, /no range/],
    [{ limits: { ...limits, platenC: [200, 250] }, factors: [{ kind: 'temperature' }] }, /safety bound/],
    [{ start: { platenC: 180, dwellSeconds: 50 } }, /maker allows/],
  ] as [Partial<LadderRequest>, RegExp][])('refuses what cannot work: %j', (change, message) => {
    expect(() => planLadder({ ...base, ...change })).toThrow(message);
  });
});
