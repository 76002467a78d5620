export type CurveKind = 'rise' | 'drift' | 'spread';

/**
 * The shapes a value may take over z = ln dose, counted from the middle of the coupons. Each parameter is normal a
 * priori; positive ones stand as logarithms. The shapes are chosen for what is known of a transfer (dye arrives, then
 * slowly goes; edges widen as dye spreads), the widths of the priors are guesses and wide.
 */
export interface Curve {
  readonly kind: CurveKind;
  readonly prior: readonly { readonly mean: number; readonly sd: number }[];
}

/**
 * Density or chroma: arrives as a stretched exponential of the dose (Kohlrausch's form) and fades in proportion to it.
 * Parameters: ln top, where 63 % has come, ln steepness, ln of the share lost per middle dose.
 */
export function riseCurve(largest: number): Curve {
  return {
    kind: 'rise',
    prior: [
      { mean: Math.log(largest), sd: 0.3 },
      { mean: -1, sd: 1 },
      { mean: 0, sd: 0.4 },
      { mean: Math.log(0.02), sd: 1.2 },
    ],
  };
}

/**
 * Something that goes on changing one way, such as black from green to brown: a third-degree polynomial whose curvature
 * is held small a priori. `scale` is the change expected where the dose is multiplied by e.
 */
export function driftCurve(scale: number, middle = 0): Curve {
  return {
    kind: 'drift',
    prior: [
      { mean: middle, sd: 2 * Math.abs(scale) },
      { mean: scale, sd: Math.abs(scale) },
      { mean: 0, sd: 0.6 * Math.abs(scale) },
      { mean: 0, sd: 0.3 * Math.abs(scale) },
    ],
  };
}

/**
 * Edge width: the printer's own and what spreads with the dose, added in squares as blurs are. Parameters: ln own
 * width, ln width spread at the middle dose, ln of the power (0.5 is plain diffusion, Einstein 1905).
 */
export function spreadCurve(narrowest: number): Curve {
  return {
    kind: 'spread',
    prior: [
      { mean: Math.log(narrowest), sd: 0.25 },
      { mean: Math.log(0.5 * narrowest), sd: 0.8 },
      { mean: Math.log(0.6), sd: 0.4 },
    ],
  };
}

export function curveAt({ kind }: Curve, t: ArrayLike<number>, z: number): number {
  if (kind === 'drift') return t[0]! + z * (t[1]! + z * (t[2]! + z * t[3]!));
  if (kind === 'spread') return Math.hypot(Math.exp(t[0]!), Math.exp(t[1]! + Math.exp(t[2]!) * z));
  const arrived = -Math.expm1(-Math.exp(Math.min(50, Math.exp(t[2]!) * (z - t[1]!))));
  return Math.exp(t[0]! - Math.exp(Math.min(50, t[3]! + z))) * arrived;
}
