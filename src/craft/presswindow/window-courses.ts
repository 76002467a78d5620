import { type Aside, curveAt } from './curves.js';
import { asideOf, type LadderFit, lawOf } from './fit-ladder.js';
import { logDose, logDoseOver, secondsForLogDose } from './kinetics.js';
import { median, quantile } from './quantile.js';
import type { Response, ResponseId } from './responses.js';
import type { PressStep } from './types.js';
import type { WindowPlace } from './window.js';

/** One value over time at a place: median and the band of nine in ten worlds, and the coupons' own values. */
export interface WindowCourse {
  readonly id: ResponseId;
  /** For a person: 'Density of black'. */
  readonly name: string;
  /** '' where it has none. */
  readonly unit: string;
  readonly dwellSeconds: number[];
  readonly median: number[];
  readonly low: number[];
  readonly high: number[];
  /**
   * Each coupon's value at the time that gives its dose at the place's temperature and pressure, less what the fit says
   * its own temperature did beyond the dose.
   */
  readonly coupons: { readonly id: string; readonly dwellSeconds: number; readonly value: number }[];
}

const points = 61;

const names: Record<ResponseId, readonly [name: string, unit: string]> = {
  'density.black': ['Density of black', ''],
  'density.cyan': ['Density of cyan', ''],
  'density.magenta': ['Density of magenta', ''],
  'density.yellow': ['Density of yellow', ''],
  'chroma.cyan': ['Chroma of cyan', ''],
  'chroma.magenta': ['Chroma of magenta', ''],
  'chroma.yellow': ['Chroma of yellow', ''],
  blackHue: ['Hue of black, green to brown', ''],
  greyHue: ['Hue of grey, green to brown', ''],
  edgeUm: ['Edge width', 'µm'],
  edgeByEye: ['Softness of edges by eye', ''],
  smallText: ['Small letters that can be read', ''],
};

/** Every value followed, over the times allowed at a place and those to which its coupons are carried. */
export function windowCourses(fit: LadderFit, place: WindowPlace): WindowCourse[] {
  const pressure = place.pressureBar === undefined ? {} : { pressureBar: place.pressureBar };
  const there = { platenC: place.platenC, ...pressure };
  const middle = {
    ...lawOf(fit, fit.draws[0]!),
    warmUp: {
      startC: fit.draws[0]!.warmUp.startC,
      timeConstantSeconds: median(fit.draws.map((draw) => draw.warmUp.timeConstantSeconds)),
    },
    activationKJPerMol: median(fit.draws.map((draw) => draw.activationKJPerMol)),
    pressureExponent: median(fit.draws.map((draw) => draw.pressureExponent)),
  };
  const carried = (step: PressStep): number => secondsForLogDose(logDose(step, middle), there, middle);
  const carriedSeconds = fit.coupons.map(({ step }) => carried(step));
  const low = Math.min(place.dwellSeconds[0], ...carriedSeconds);
  const high = Math.max(place.dwellSeconds[1], ...carriedSeconds);
  const dwellSeconds = Array.from({ length: points }, (_, i) => low * (high / low) ** (i / (points - 1)));
  const zOfDraw = fit.draws.map((draw) => {
    const over = logDoseOver(there, lawOf(fit, draw));
    return dwellSeconds.map((seconds) => over(seconds) - draw.middleLogDose);
  });
  const aside = asideOf(place, fit);
  return fit.responses.map((response, r): WindowCourse => {
    const [name, unit] = names[response.id];
    const columns = dwellSeconds.map((_, i) =>
      fit.draws.map((draw, d) => curveAt(response.curve, draw.theta[r]!, zOfDraw[d]![i]!, aside)),
    );
    return {
      id: response.id,
      name,
      unit,
      dwellSeconds: [...dwellSeconds],
      median: columns.map(median),
      low: columns.map((values) => quantile(values, 0.05)),
      high: columns.map((values) => quantile(values, 0.95)),
      coupons: couponsOf(fit, response, r, aside, carriedSeconds),
    };
  });
}

/** Judgements by eye have no value to be drawn. */
function couponsOf(
  fit: LadderFit,
  { curve, evidence }: Response,
  r: number,
  aside: Aside,
  carriedSeconds: readonly number[],
): WindowCourse['coupons'] {
  return evidence.flatMap((one) => {
    if (one.kind !== 'reading') return [];
    const { id, step } = fit.coupons[one.coupon]!;
    const own = asideOf(step, fit);
    const shifts = fit.draws.map((draw) => {
      const z = logDose(step, lawOf(fit, draw)) - draw.middleLogDose;
      return curveAt(curve, draw.theta[r]!, z, aside) - curveAt(curve, draw.theta[r]!, z, own);
    });
    return [{ id, dwellSeconds: carriedSeconds[one.coupon]!, value: one.value + median(shifts) }];
  });
}
