import { describe, expect, it } from 'vitest';
import {
  blackVerdict,
  type Coupon,
  fitLadder,
  nextCoupons,
  planLadder,
  pressWindow,
  windowOf,
} from '#craft/presswindow';
import { chanceOf } from './chance.js';
import { hueOfBlack, type Pressed, pressedCoupon, transfer } from './press-transfer.js';

const times = [25, 90] as const;
const limits = { platenC: [190, 208], dwellSeconds: times } as const;
const place = { platenC: 200, dwellSeconds: times } as const;

/** The press's own window, without noise, by the same rules. */
const truth = (() => {
  const at = (of: (pressed: Pressed) => number) => (log: number) =>
    of(transfer({ platenC: 200, dwellSeconds: Math.exp(log) }));
  const solids = ['black', 'cyan', 'magenta', 'yellow'] as const;
  return windowOf(
    {
      densities: solids.map((s) => at((p) => p.density[s])),
      blackHue: at(hueOfBlack),
      edgeUm: at((p) => p.edgeUm),
    },
    times,
  );
})();
const trueMiddle = Math.sqrt(truth.fromSeconds * truth.toSeconds);

function press(seed: number, factors: readonly ('time' | 'temperature')[], coupons = 9): Coupon[] {
  const plan = planLadder({
    coupons,
    factors: factors.map((kind) => ({ kind })),
    start: { platenC: 200, dwellSeconds: 50 },
    limits,
    seed,
  });
  const chance = chanceOf(7919 * seed);
  return plan.coupons.map(({ step }, i) => pressedCoupon(`c${i + 1}`, step, chance));
}

describe('ladders pressed on a press of another kind', () => {
  it.each([
    // Over 100 seeds each when written: 100 and 99 of 100.
    ['time alone', ['time'], 40, 0.95],
    ['time and temperature', ['time', 'temperature'], 20, 0.95],
  ] as const)(
    '9 coupons, %s: the middle is within 5 % of the dose often enough',
    (name, factors, seeds, atLeast) => {
      const errors = Array.from({ length: seeds }, (_, i) => {
        const window = pressWindow(fitLadder(press(i + 1, factors), { seed: i + 1, draws: 150 }), place);
        return window.recipe.middleSeconds.value / trueMiddle - 1;
      });
      const share = errors.filter((e) => Math.abs(e) <= 0.05).length / seeds;
      const rms = Math.sqrt(errors.reduce((s, e) => s + e * e, 0) / seeds);
      console.log(
        `${name}: true middle ${trueMiddle.toFixed(1)} s, rms error ${(100 * rms).toFixed(2)} %, within 5 %: ${share}`,
      );
      expect(share).toBeGreaterThanOrEqual(atLeast);
    },
    240_000,
  );

  it('the next coupon proposed makes the middle surer, and exchanged coupons are named', () => {
    const coupons = press(5, ['time'], 6);
    const [next] = nextCoupons(fitLadder(coupons, { seed: 1 }), place, limits);
    expect(next!.sdLogThen).toBeLessThan(next!.sdLogNow);
    const nine = press(5, ['time']);
    const first = nine.reduce((a, b) => (b.step.dwellSeconds < a.step.dwellSeconds ? b : a));
    const last = nine.reduce((a, b) => (b.step.dwellSeconds > a.step.dwellSeconds ? b : a));
    const mixed = nine.map((c) =>
      c === first ? { ...c, step: last.step } : c === last ? { ...c, step: first.step } : c,
    );
    expect(fitLadder(nine, { seed: 1 }).remarks).toEqual([]);
    expect(fitLadder(mixed, { seed: 1 }).remarks.join(' ')).toMatch(/look exchanged/);
  });

  it('a black says under or over, from the own ladder and from common practice', () => {
    const fit = fitLadder(press(3, ['time']), { seed: 3 });
    for (const [dwellSeconds, verdict] of [
      [27, 'under'],
      [88, 'over'],
    ] as const) {
      const black = {
        lab: transfer({ platenC: 200, dwellSeconds }).blackLab,
        sdLab: [0.25, 0.25, 0.25] as const,
      };
      const own = blackVerdict(black, { platenC: 200, dwellSeconds }, { fit, place });
      expect(own.verdict).toBe(verdict);
      expect(own.restsOn).toBe('own ladder');
      console.log(`black of ${dwellSeconds} s: ${own.words} (true middle ${trueMiddle.toFixed(1)} s)`);
      expect(Math.abs(dwellSeconds + own.seconds.value - trueMiddle)).toBeLessThan(0.2 * trueMiddle);
    }
    const green = { lab: [14, -6, 1] as const, sdLab: [0.3, 0.3, 0.3] as const };
    const common = blackVerdict(green, { platenC: 200, dwellSeconds: 40 });
    expect([common.verdict, common.restsOn]).toEqual(['under', 'common practice']);
    expect(common.seconds.value).toBeGreaterThan(0);
    const pale = { lab: [55, 0, 0] as const, sdLab: [0.3, 0.3, 0.3] as const };
    const grey = blackVerdict(pale, { platenC: 200, dwellSeconds: 40 });
    expect(grey.verdict).toBe('under');
    expect(grey.remarks.join(' ')).toMatch(/hardly arrived/);
  });

  it('eyes alone give a window, and eyes that contradict each other are refused', () => {
    const seen = (t: number, black: 'green' | 'neutral' | 'brown', edges: 'crisp' | 'soft'): Coupon => ({
      id: `t${t}`,
      step: { platenC: 200, dwellSeconds: t },
      byEye: { black, edges },
    });
    const coupons = [
      seen(25, 'green', 'crisp'),
      seen(35, 'neutral', 'crisp'),
      seen(48, 'neutral', 'crisp'),
      seen(65, 'brown', 'soft'),
      seen(90, 'brown', 'soft'),
    ];
    const window = pressWindow(fitLadder(coupons, { seed: 1 }), place);
    expect(window.recipe.dwellSeconds).toBeGreaterThan(30);
    expect(window.recipe.dwellSeconds).toBeLessThan(58);
    const turned = [
      seen(25, 'brown', 'crisp'),
      seen(35, 'neutral', 'crisp'),
      seen(48, 'neutral', 'crisp'),
      seen(90, 'green', 'soft'),
    ];
    expect(() => fitLadder(turned, { seed: 1 })).toThrow(/looks brown though/);
  });
});
