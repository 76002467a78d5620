import { describe, expect, it } from 'vitest';
import {
  type Coupon,
  fitLadder,
  type LadderOptions,
  logDose,
  planLadder,
  pressWindow,
  usualRules,
  windowCourses,
  windowOf,
} from '#craft/presswindow';
import { chanceOf } from './chance.js';
import {
  hueOfBlack,
  type Pressed,
  pressedCoupon,
  type Transfer,
  transfer,
  usualTransfer,
} from './press-transfer.js';

const times = [20, 110] as const;
const limits = { platenC: [190, 208], dwellSeconds: times } as const;
const place = { platenC: 200, dwellSeconds: times } as const;

function press(how: Transfer, seed: number, factors: readonly ('time' | 'temperature')[]): Coupon[] {
  const plan = planLadder({
    coupons: 9,
    factors: factors.map((kind) => ({ kind })),
    start: { platenC: 200, dwellSeconds: 50 },
    limits,
    seed,
  });
  const chance = chanceOf(7919 * seed);
  return plan.coupons.map(({ step }, i) => pressedCoupon(`c${i + 1}`, step, chance, how));
}

function truth(how: Transfer, platenC: number) {
  const known = new Map<number, Pressed>();
  const pressed = (log: number): Pressed => {
    const found = known.get(log) ?? transfer({ platenC, dwellSeconds: Math.exp(log) }, how);
    known.set(log, found);
    return found;
  };
  const at = (of: (pressed: Pressed) => number) => (log: number) => of(pressed(log));
  const solids = ['black', 'cyan', 'magenta', 'yellow'] as const;
  return windowOf(
    {
      densities: solids.map((s) => at((p) => p.density[s])),
      blackHue: at(hueOfBlack),
      edgeUm: at((p) => p.edgeUm),
    },
    times,
  );
}

const windowFrom = (coupons: readonly Coupon[], options: Partial<LadderOptions> = {}) =>
  pressWindow(fitLadder(coupons, { seed: 1, draws: 200, ...options }), place);

describe('warming up', () => {
  const slow: Transfer = { ...usualTransfer, warmUpSeconds: 6 };
  const coupons = press(slow, 2, ['time']);

  it('an equivalent time is the integral of Arrhenius’ rate over the warming (Simpson’s rule with 20 000 cells)', () => {
    const warmUp = { timeConstantSeconds: 6, startC: 60 };
    const law = {
      activationKJPerMol: 90,
      pressureExponent: 0,
      referenceC: 200,
      referencePressureBar: 1,
      warmUp,
    };
    for (const dwellSeconds of [12, 20, 50, 110]) {
      const rate = (s: number): number => {
        const kelvin = 205 - 145 * Math.exp(-s / 6) + 273.15;
        return Math.exp((-90_000 / 8.314462618) * (1 / kelvin - 1 / 473.15));
      };
      const h = dwellSeconds / 20_000;
      let sum = 0;
      for (let i = 0; i < 20_000; i += 1)
        sum += (h / 6) * (rate(i * h) + 4 * rate((i + 0.5) * h) + rate((i + 1) * h));
      expect(Math.abs(logDose({ platenC: 205, dwellSeconds }, law) - Math.log(sum))).toBeLessThan(0.005);
    }
  });

  it('given or fitted, it brings the start of the window where a slow press has it', () => {
    const from = truth(slow, 200).fromSeconds;
    const given = windowFrom(coupons, { warmUp: { timeConstantSeconds: 6, startC: 60 } });
    const fitted = windowFrom(coupons);
    const atOnce = windowFrom(coupons, { warmUp: { timeConstantSeconds: 0.01, startC: 60 } });
    const off = ({ fromSeconds }: typeof given): number => Math.abs(fromSeconds.value / from - 1);
    console.log(
      `slow to warm: start ${from.toFixed(1)} s; given ${given.fromSeconds.value.toFixed(1)}, fitted ${fitted.fromSeconds.value.toFixed(1)}, at once ${atOnce.fromSeconds.value.toFixed(1)}`,
    );
    expect(off(given)).toBeLessThan(0.05);
    expect(off(fitted)).toBeLessThan(0.05);
    const constants = fitLadder(coupons, { seed: 1, draws: 200 }).draws.map(
      (d) => d.warmUp.timeConstantSeconds,
    );
    // It starts from 0.03 of the mean time, 1.4 s, and learns that the press is slower.
    expect(constants.toSorted((a, b) => a - b)[100]!).toBeGreaterThan(2);
  });
});

describe('judged by eye and measured, mixed', () => {
  const tinted = 2.5;
  const coupons = press(usualTransfer, 4, ['time']);
  const mixed = coupons.map((coupon, i): Coupon => {
    if (i % 2 === 0) return coupon;
    const hue = hueOfBlack(transfer(coupon.step));
    const { blackLab: _, ...values } = coupon.values!;
    return {
      ...coupon,
      values,
      byEye: { black: hue < -tinted ? 'green' : hue > tinted ? 'brown' : 'neutral' },
    };
  });

  it('every second black judged by eye moves the window by little, and makes it no surer', () => {
    const [all, some] = [windowFrom(coupons), windowFrom(mixed)];
    console.log(
      `brown from: measured ${JSON.stringify(all.toSeconds)}, half by eye ${JSON.stringify(some.toSeconds)}`,
    );
    expect(Math.abs(Math.log(some.toSeconds.value / all.toSeconds.value))).toBeLessThan(0.15);
    const width = ({ low, high }: { low: number; high: number }): number => Math.log(high / low);
    expect(width(some.toSeconds)).toBeGreaterThan(width(all.toSeconds));
  });

  it('a judgement beside a measured black changes nothing', () => {
    const both = coupons.map((coupon): Coupon => ({ ...coupon, byEye: { black: 'neutral' } }));
    const of = (list: readonly Coupon[]) => windowFrom(list).toSeconds;
    expect(of(both)).toEqual(of(coupons));
  });

  it('a crisp edge on more than a soft one is said', () => {
    const eyes = (edges: readonly ('crisp' | 'soft')[]): Coupon[] =>
      [25, 40, 60, 90].map((dwellSeconds, i) => ({
        id: `e${i}`,
        step: { platenC: 200, dwellSeconds },
        byEye: { black: (['green', 'neutral', 'neutral', 'brown'] as const)[i]!, edges: edges[i]! },
      }));
    expect(windowFrom(eyes(['crisp', 'soft', 'crisp', 'soft'])).remarks.join(' ')).toMatch(
      /do not quite agree/,
    );
    expect(windowFrom(eyes(['crisp', 'crisp', 'soft', 'soft'])).remarks.join(' ')).not.toMatch(/agree/);
  });
});

describe('edges', () => {
  it('follow a square root of time, Einstein’s law of plain diffusion, within what was read', () => {
    // 100 µm of the printer's own and 12 µm for the root of each second, added in squares.
    const width = (s: number): number => Math.hypot(100, 12 * Math.sqrt(s));
    const chance = chanceOf(11);
    const coupons = Array.from({ length: 9 }, (_, i): Coupon => {
      const dwellSeconds = Math.round(20 * 5.5 ** (i / 8));
      return {
        id: `${i}`,
        step: { platenC: 200, dwellSeconds },
        values: { edgeUm: { value: width(dwellSeconds) + 2 * chance.normal(), sd: 2 } },
      };
    });
    const fit = fitLadder(coupons, { seed: 1, draws: 200 });
    const course = windowCourses(fit, place).find(({ id }) => id === 'edgeUm')!;
    const inside = course.dwellSeconds.filter(
      (s, i) => course.low[i]! - 1 <= width(s) && width(s) <= course.high[i]! + 1,
    ).length;
    expect(inside / course.dwellSeconds.length).toBeGreaterThan(0.9);
  });

  it('close the window at the width that somebody asks for', () => {
    const edgeLimitUm = transfer({ platenC: 200, dwellSeconds: 46 }).edgeUm;
    const fit = fitLadder(press(usualTransfer, 3, ['time']), { seed: 1, draws: 200 });
    const window = pressWindow(fit, place, { ...usualRules, edgeLimitUm });
    expect(window.closes).toBe('edges turning soft');
    // One coupon's edge is read to 2 %, which is 5 % of time here.
    expect(Math.abs(window.toSeconds.value / 46 - 1)).toBeLessThan(0.1);
    expect(window.toSeconds.low).toBeLessThan(46);
    expect(window.toSeconds.high).toBeGreaterThan(46);
  });
});

it('degrees that may go wrong: no more are promised than the press bears, and not a few of them', () => {
  const windows = Array.from({ length: 29 }, (_, i) => {
    const platenC = 193 + 0.5 * i;
    return { platenC, ...truth(usualTransfer, platenC) };
  });
  const degrees = (dwellSeconds: number, sign: 1 | -1): number => {
    const well = windows.filter((w) => w.fromSeconds <= dwellSeconds && dwellSeconds <= w.toSeconds);
    return Math.max(...well.map(({ platenC }) => sign * (platenC - 200)));
  };
  const rows = [1, 2, 3, 4].map((seed) => {
    const { recipe } = windowFrom(press(usualTransfer, seed, ['time', 'temperature']));
    const { coolerK, hotterK } = recipe.tolerance;
    return {
      said: [coolerK, hotterK],
      borne: [degrees(recipe.dwellSeconds, -1), degrees(recipe.dwellSeconds, 1)],
    };
  });
  console.log(`degrees said and borne: ${JSON.stringify(rows)}`);
  for (const side of [0, 1]) {
    // Half a degree of the truth's own steps.
    const kept = rows.filter(({ said, borne }) => said[side]! <= borne[side]! + 0.5).length;
    expect(kept).toBeGreaterThanOrEqual(3);
    for (const { said } of rows) expect(said[side]!).toBeGreaterThan(0.5);
  }
});
