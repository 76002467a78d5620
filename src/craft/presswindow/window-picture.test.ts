import { describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import {
  type Coupon,
  fitLadder,
  fitOf,
  isSure,
  keptFit,
  logDose,
  pressWindow,
  windowCourses,
  windowField,
} from './index.js';

/** Coupons of a made-up press whose values are plain functions of one dose; nothing here follows the fitted curves. */
function coupons(count = 9): Coupon[] {
  return Array.from({ length: count }, (_, i): Coupon => {
    const step = {
      platenC: [195, 200, 205][i % 3]!,
      dwellSeconds: Math.round(25 * 3.6 ** (i / (count - 1))),
    };
    const z = logDose(step, {
      activationKJPerMol: 90,
      pressureExponent: 0,
      referenceC: 200,
      referencePressureBar: 1,
    });
    const seconds = Math.exp(z);
    const density = (top: number, tau: number) => ({ value: (top * seconds) / (tau + seconds), sd: 0.01 });
    return {
      id: `${i + 1}`,
      step,
      values: {
        density: { black: density(2, 2), cyan: density(1.6, 1.5) },
        blackLab: { lab: [18, 6 * (z - 4), 2 * (z - 4)], sdLab: [0.2, 0.15, 0.15] },
        edgeUm: { value: 120 + 0.6 * seconds, sd: 2 },
      },
    };
  });
}

const place = { platenC: 200, dwellSeconds: [20, 120] as const };

describe('the window as a picture', () => {
  const fit = fitLadder(coupons(), { seed: 3, draws: 240 });
  const window = pressWindow(fit, place);
  const dwellSeconds = Array.from({ length: 41 }, (_, i) => 20 * 6 ** (i / 40));
  const field = windowField(fit, { platenC: [190, 200, 208], dwellSeconds });
  const row = <T>(values: readonly T[], r: number): T[] => values.slice(41 * r, 41 * (r + 1));

  it('says of the recipe’s temperature what the window says', () => {
    const within = row(field.within, 1);
    const at = (seconds: number): number => within[dwellSeconds.findIndex((s) => s >= seconds)] ?? Number.NaN;
    expect(at(window.recipe.dwellSeconds)).toBeGreaterThan(0.9);
    expect(Math.abs(at(window.recipe.dwellSeconds) - window.recipe.probabilityWithin)).toBeLessThan(0.1);
    expect(at(window.fromSeconds.low * 0.8)).toBeLessThan(0.05);
    expect(at(window.toSeconds.high * 1.15)).toBeLessThan(0.05);
  });

  it('wants less time where it is hotter: the best times follow Arrhenius’ law (90 kJ/mol made the coupons)', () => {
    const best = [0, 1, 2].map((r) => {
      const weights = row(field.within, r);
      const sum = weights.reduce((a, b) => a + b, 0);
      return weights.reduce((total, w, i) => total + w * Math.log(dwellSeconds[i]!), 0) / sum;
    });
    // ln of the rate from 200 to 208 °C: Ea/R (1/473.15 − 1/481.15).
    const expected = (90_000 / 8.314462618) * (1 / 473.15 - 1 / 481.15);
    expect(Math.abs(best[1]! - best[2]! - expected)).toBeLessThan(0.08);
  });

  it('black turns from green to brown, density comes up, edges widen', () => {
    const hue = row(field.blackHue, 1) as number[];
    expect(hue[0]).toBeLessThan(0);
    expect(hue.at(-1)).toBeGreaterThan(0);
    const share = row(field.densityShare, 1);
    expect(share[0]).toBeLessThan(0.96);
    expect(Math.max(...share)).toBeLessThanOrEqual(1);
    const edges = row(field.edgeShare, 1) as number[];
    expect(edges[0]).toBeLessThan(1);
    expect(edges.at(-1)).toBeGreaterThan(1);
  });

  it('courses run through the coupons carried to one temperature', () => {
    const density = windowCourses(fit, place).find(({ id }) => id === 'density.black')!;
    expect(density.coupons).toHaveLength(9);
    for (const { dwellSeconds: seconds, value } of density.coupons) {
      const i = density.dwellSeconds.findIndex((s) => s >= seconds - 1e-9);
      expect(value).toBeGreaterThan(density.low[i]! - 0.04);
      expect(value).toBeLessThan(density.high[i]! + 0.04);
    }
    // The made-up law carries a coupon of 195 °C to fewer seconds at 200 °C.
    const cool = fit.coupons.findIndex(({ step }) => step.platenC === 195);
    const carried = density.coupons.find(({ id }) => id === fit.coupons[cool]!.id)!;
    expect(carried.dwellSeconds).toBeLessThan(fit.coupons[cool]!.step.dwellSeconds);
  });

  it('a fit kept as JSON gives the same window, and what is no fit is refused', () => {
    const again = fitOf(JSON.parse(JSON.stringify(keptFit(fit))));
    expect(pressWindow(again, place)).toEqual(window);
    const kept = JSON.parse(JSON.stringify(keptFit(fit)));
    for (const bad of [null, 3, {}, { ...kept, version: 1 }, { ...kept, fit: { ...kept.fit, draws: [] } }]) {
      try {
        fitOf(bad);
        expect.unreachable();
      } catch (thrown) {
        expect(isProblem(thrown) && thrown.code).toBe('ladder.unusable');
      }
    }
  });

  it('is surer with more coupons, and never sure of a recipe that may lie outside', () => {
    const many = fitLadder(coupons(16), { seed: 3, draws: 240 });
    expect(isSure(pressWindow(many, place), many)).toBe(true);
    const words = ['green', 'green', 'neutral', 'brown'] as const;
    const few = fitLadder(
      coupons(4).map(({ id, step }, i) => ({ id, step, byEye: { black: words[i]! } })),
      { seed: 3, draws: 240 },
    );
    expect(isSure(pressWindow(few, place), few)).toBe(false);
  });
});
