import { Problem } from '#craft/problem';
import type { LadderFit } from './fit-ladder.js';
import { usualRules, type WindowRules } from './window.js';

export interface FieldAxes {
  /** True temperatures, rising. */
  readonly platenC: readonly number[];
  readonly dwellSeconds: readonly number[];
  readonly pressureBar?: number;
}

/** The window as a picture: row by row of temperature, in each row along time. */
export interface WindowField {
  /** Share of the worlds in which all that was followed is well there, 0..1. */
  readonly within: number[];
  /** Median of the faintest solid's density beside its top, 0..1; 1 where no density was followed. */
  readonly densityShare: number[];
  /** Median hue of black, CIELAB units: − green, + brown. */
  readonly blackHue: (number | null)[];
  /** Median edge width beside the crisp limit: 1 is at it. By eye: below or above 1 as they would be called crisp or soft. */
  readonly edgeShare: (number | null)[];
}

export function windowField(fit: LadderFit, axes: FieldAxes, rules: WindowRules = usualRules): WindowField {
  throw new Problem(
    'internal.fault',
    `Not there yet (${fit.coupons.length}, ${axes.platenC.length}, ${rules.edgeGrowth}).`,
    { remedy: 'Wait for the next version.' },
  );
}
