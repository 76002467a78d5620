/** What was set on the press for one coupon. */
export interface PressStep {
  readonly platenC: number;
  readonly dwellSeconds: number;
  /** On the blank, bar. Leave it out where nobody knows: then pressure is taken as the same for all. */
  readonly pressureBar?: number;
}

export type FactorKind = 'time' | 'temperature' | 'pressure';

export type Solid = 'black' | 'cyan' | 'magenta' | 'yellow';
export const solids: readonly Solid[] = ['black', 'cyan', 'magenta', 'yellow'];

export interface Measured {
  readonly value: number;
  /** One standard deviation of the reading, in the value's unit. */
  readonly sd: number;
}

export interface MeasuredLab {
  readonly lab: readonly [number, number, number];
  readonly sdLab: readonly [number, number, number];
}

export interface CouponValues {
  /** Optical density over bare ground. */
  readonly density?: Partial<Record<Solid, Measured>>;
  /** CIELAB C*ab of the solid colours. */
  readonly chroma?: Partial<Record<Exclude<Solid, 'black'>, Measured>>;
  readonly blackLab?: MeasuredLab;
  readonly greyLab?: MeasuredLab;
  /** From 10 to 90 % of the step, µm. */
  readonly edgeUm?: Measured;
  /** Share of small letters that can be read, 0..1. */
  readonly smallText?: Measured;
}

export type BlackByEye = 'green' | 'neutral' | 'brown';
export type EdgesByEye = 'crisp' | 'soft';

export interface Coupon {
  readonly id: string;
  readonly step: PressStep;
  readonly values?: CouponValues;
  readonly byEye?: { readonly black?: BlackByEye; readonly edges?: EdgesByEye };
}

/** What may be set: the blank maker's range, or narrower. */
export interface PressLimits {
  readonly platenC: readonly [low: number, high: number];
  readonly dwellSeconds: readonly [low: number, high: number];
  readonly pressureBar?: readonly [low: number, high: number];
}

/** A figure with the range in which it lies in nine of ten cases. */
export interface Estimate {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}
