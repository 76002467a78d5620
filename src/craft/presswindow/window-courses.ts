import { Problem } from '#craft/problem';
import type { LadderFit } from './fit-ladder.js';
import type { ResponseId } from './responses.js';
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
  /** Each coupon's value at the time that gives its dose at the place's temperature and pressure. */
  readonly coupons: { readonly id: string; readonly dwellSeconds: number; readonly value: number }[];
}

export function windowCourses(fit: LadderFit, place: WindowPlace): WindowCourse[] {
  throw new Problem('internal.fault', `Not there yet (${fit.coupons.length}, ${place.platenC}).`, {
    remedy: 'Wait for the next version.',
  });
}
