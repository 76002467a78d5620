import { describe, expect, it } from 'vitest';
import { type Coupon, fitLadder, planLadder } from '#craft/presswindow';
import { chanceOf } from './chance.js';
import { pressedCoupon } from './press-transfer.js';

const limits = { platenC: [190, 208], dwellSeconds: [25, 90], pressureBar: [1, 4] } as const;

function press(seed: number, count: number): Coupon[] {
  const plan = planLadder({
    coupons: count,
    factors: [{ kind: 'time' }, { kind: 'pressure' }],
    start: { platenC: 200, dwellSeconds: 50, pressureBar: 2 },
    limits,
    seed,
  });
  const chance = chanceOf(31 * seed);
  return plan.coupons.map(({ step }, i) => pressedCoupon(`c${i + 1}`, step, chance));
}

describe('ladders of time and pressure on a press of another kind', () => {
  // Closer contact lets less vapour away there, which is no matter of dose.
  it.each([6, 9, 12])('%d coupons: none is called odd or exchanged, exchanged ones are', (count) => {
    for (let seed = 1; seed <= 6; seed += 1) {
      const coupons = press(seed, count);
      expect(fitLadder(coupons, { seed, draws: 20 }).remarks).toEqual([]);
      const byTime = coupons.toSorted((a, b) => a.step.dwellSeconds - b.step.dwellSeconds);
      const [first, last] = [byTime[0]!, byTime.at(-1)!];
      const mixed = coupons.map((c) =>
        c === first ? { ...c, step: last.step } : c === last ? { ...c, step: first.step } : c,
      );
      expect(fitLadder(mixed, { seed, draws: 20 }).remarks.join(' ')).toMatch(/look exchanged/);
    }
  });
});
