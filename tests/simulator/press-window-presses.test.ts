import { describe, expect, it } from 'vitest';
import { type Coupon, fitLadder, planLadder, pressWindow, windowOf } from '#craft/presswindow';
import { chanceOf } from './chance.js';
import {
  hueOfBlack,
  type Pressed,
  pressedCoupon,
  type Transfer,
  transfer,
  usualTransfer,
} from './press-transfer.js';

/**
 * Presses and inks that differ from the one the fit was made beside: each a change of several of its rates at once. None
 * of them is a real one.
 */
const { cyan, magenta, yellow } = usualTransfer.dyes;
const presses = {
  usual: usualTransfer,
  'slow dyes, slow to warm': {
    ...usualTransfer,
    warmUpSeconds: 6,
    dyes: {
      cyan: { ...cyan, leave: 0.6 * cyan.leave },
      magenta: { ...magenta, leave: 0.7 * magenta.leave },
      yellow: { ...yellow, leave: 0.8 * yellow.leave },
    },
  },
  'a thick coat': {
    ...usualTransfer,
    dyes: {
      cyan: { ...cyan, diffuse: 0.4 * cyan.diffuse },
      magenta: { ...magenta, diffuse: 0.4 * magenta.diffuse },
      yellow: { ...yellow, diffuse: 0.4 * yellow.diffuse },
    },
  },
  'energies far apart': {
    ...usualTransfer,
    sidewaysKJ: 140,
    dyes: {
      cyan: { ...cyan, leaveKJ: 70, decayKJ: 120 },
      magenta: { ...magenta, leaveKJ: 110 },
      yellow: { ...yellow, leaveKJ: 95, escapeKJ: 90 },
    },
  },
} as const satisfies Record<string, Transfer>;

const times = [20, 110] as const;
const limits = { platenC: [190, 208], dwellSeconds: times, pressureBar: [1, 4] } as const;

function truth(how: Transfer, platenC: number): number {
  const at = (of: (pressed: Pressed) => number) => (log: number) =>
    of(transfer({ platenC, dwellSeconds: Math.exp(log) }, how));
  const solids = ['black', 'cyan', 'magenta', 'yellow'] as const;
  const { fromSeconds, toSeconds } = windowOf(
    {
      densities: solids.map((s) => at((p) => p.density[s])),
      blackHue: at(hueOfBlack),
      edgeUm: at((p) => p.edgeUm),
    },
    times,
  );
  return Math.sqrt(fromSeconds * toSeconds);
}

type Factor = 'time' | 'temperature' | 'pressure';
function press(how: Transfer, seed: number, factors: readonly Factor[], count: number): Coupon[] {
  const plan = planLadder({
    coupons: count,
    factors: factors.map((kind) => ({ kind })),
    start: { platenC: 200, dwellSeconds: 50, ...(factors.includes('pressure') ? { pressureBar: 2 } : {}) },
    limits,
    seed,
  });
  const chance = chanceOf(7919 * seed);
  return plan.coupons.map(({ step }, i) => pressedCoupon(`c${i + 1}`, step, chance, how));
}

/** LADDER_SEEDS=200 for the long table. */
const wanted = Number(process.env.LADDER_SEEDS ?? 0);

/**
 * Held when written, 9 coupons over 20 to 110 s, within 5 %, of 40 ladders each: time alone 39 on the usual press, a thick
 * coat and energies far apart; time and temperature 37 on the usual press. Slow dyes on a press slow to warm come out some
 * 3 % early (36 of 40): magenta there goes on arriving nearly up to the longest coupon, and its top is put a little low.
 * The bounds below allow for how few the seeds are.
 */
describe('ladders on presses of several kinds', () => {
  it.each([
    ['time', 9, 'usual', 6, 0.03],
    ['time', 9, 'slow dyes, slow to warm', 6, 0.055],
    ['time', 9, 'a thick coat', 3, 0.03],
    ['time, temperature', 9, 'slow dyes, slow to warm', 2, 0.055],
    ['time, temperature', 12, 'energies far apart', 2, 0.05],
    ['time, pressure', 9, 'usual', 2, 0.05],
  ] as const)(
    '%s, %d coupons, %s: the middle is near the press’s own',
    (words, count, name, few, bias) => {
      const factors = words.split(', ') as Factor[];
      const seeds = wanted || few;
      const middle = truth(presses[name], 200);
      const found = Array.from({ length: seeds }, (_, i) => {
        const fit = fitLadder(press(presses[name], i + 1, factors, count), { seed: i + 1, draws: 200 });
        const place = {
          platenC: 200,
          dwellSeconds: times,
          ...(factors.includes('pressure') ? { pressureBar: 2 } : {}),
        };
        return pressWindow(fit, place).recipe.middleSeconds;
      });
      const errors = found.map(({ value }) => value / middle - 1);
      const share = errors.filter((e) => Math.abs(e) <= 0.05).length / seeds;
      const covered = found.filter(({ low, high }) => low <= middle && middle <= high).length / seeds;
      const mean = errors.reduce((s, e) => s + e, 0) / seeds;
      const rms = Math.sqrt(errors.reduce((s, e) => s + e * e, 0) / seeds);
      console.log(
        `${words}, ${count} coupons, ${name}: middle ${middle.toFixed(1)} s, mean ${(100 * mean).toFixed(1)} %, rms ${(100 * rms).toFixed(1)} %, within 5 %: ${share}, in the range said: ${covered}`,
      );
      expect(Math.abs(mean)).toBeLessThan(bias);
      if (seeds >= 6) expect(covered).toBeGreaterThanOrEqual(0.6);
      expect(Math.max(...errors.map(Math.abs))).toBeLessThan(seeds > 20 ? 0.2 : 0.1);
    },
    600_000,
  );
});
