import { describe, expect, it } from 'vitest';
import { fitLadder, planLadder, windowField } from '#craft/presswindow';
import { chanceOf } from './chance.js';
import { pressedCoupon, transfer } from './press-transfer.js';

describe('the picture where it is too cool for the dye', () => {
  it('does not call the little that arrives there the top', () => {
    const plan = planLadder({
      coupons: 12,
      factors: [{ kind: 'time' }, { kind: 'temperature' }],
      start: { platenC: 200, dwellSeconds: 50 },
      limits: { platenC: [190, 208], dwellSeconds: [25, 90] },
      seed: 1,
    });
    const chance = chanceOf(5);
    const fit = fitLadder(
      plan.coupons.map(({ step }, i) => pressedCoupon(`c${i + 1}`, step, chance)),
      { seed: 1 },
    );
    const dwellSeconds = Array.from({ length: 21 }, (_, i) => 25 * 3.6 ** (i / 20));
    const field = windowField(fit, { platenC: [172], dwellSeconds });
    const most = (platenC: number): number =>
      Math.max(...dwellSeconds.map((s) => transfer({ platenC, dwellSeconds: s }).density.magenta));
    expect(most(172) / most(200)).toBeLessThan(0.87);
    expect(field.densityShare.at(-1)).toBeLessThan(0.95);
    expect(field.within.every((share) => share < 0.5)).toBe(true);
  });
});
