export type CurveKind = 'rise' | 'drift' | 'spread';

/** How a coupon was pressed, beside its dose. */
export interface Aside {
  /** Tens of kelvin above the coupons' mean. */
  readonly warmth: number;
  /** ln of the pressure beside the coupons' mean; 0 where nobody knows it. */
  readonly firmness: number;
}

/**
 * The shapes a value may take over z = ln dose, counted from the middle of the coupons, and over what lies beside the
 * dose. They are chosen for what is known of a transfer (dye arrives, then slowly goes; edges widen as dye spreads).
 * One dose for everything is only nearly right: each step of a transfer has an activation energy of its own, hotter dye
 * goes astray more, closer contact loses less on the way. So every shape may also shift a little with warmth and with
 * pressure. Each parameter is normal a priori; positive ones stand as logarithms; the widths are guesses and wide.
 */
export interface Curve {
  readonly kind: CurveKind;
  readonly prior: readonly { readonly mean: number; readonly sd: number }[];
}

/**
 * Density or chroma: arrives as a stretched exponential of the dose (Kohlrausch's form) and fades in proportion to it.
 * Parameters: ln top, where 63 % has come, ln steepness, ln of the share lost per middle dose; with warmth, ln top and
 * how much sooner it comes; with pressure, ln top.
 */
export function riseCurve(largest: number): Curve {
  return {
    kind: 'rise',
    prior: [
      { mean: Math.log(largest), sd: 0.3 },
      { mean: -1, sd: 1 },
      { mean: 0, sd: 0.4 },
      { mean: Math.log(0.02), sd: 1.2 },
      { mean: 0, sd: 0.03 },
      { mean: 0, sd: 0.08 },
      { mean: 0, sd: 0.05 },
    ],
  };
}

/**
 * Something that goes on changing one way, such as black from green to brown: a third-degree polynomial whose curvature
 * is held small a priori, shifts with warmth and pressure, and small bumps along the dose: no law says that it is a
 * polynomial, and coupons far from neutral should not bend where it is neutral (a discrepancy term: Kennedy & O'Hagan,
 * J. R. Stat. Soc. B 63, 2001). `scale` is the change expected where the dose is multiplied by e.
 */
export function driftCurve(scale: number, middle = 0): Curve {
  return {
    kind: 'drift',
    prior: [
      { mean: middle, sd: 2 * Math.abs(scale) },
      { mean: scale, sd: Math.abs(scale) },
      { mean: 0, sd: 0.6 * Math.abs(scale) },
      { mean: 0, sd: 0.3 * Math.abs(scale) },
      { mean: 0, sd: 0.15 * Math.abs(scale) },
      { mean: 0, sd: 0.25 * Math.abs(scale) },
      ...bumpsAt.map(() => ({ mean: 0, sd: 0.06 * Math.abs(scale) })),
    ],
  };
}

/** Where the bumps of a drift stand along z, and their width. */
const bumpsAt = [-1.2, -0.8, -0.4, 0, 0.4, 0.8, 1.2] as const;
const bumpWidth = 0.4;
const driftTerms = 6;
const bump = (z: number, at: number): number => Math.exp(-0.5 * ((z - at) / bumpWidth) ** 2);

function driftAt(t: ArrayLike<number>, z: number, { warmth, firmness }: Aside): number {
  let sum = t[0]! + t[4]! * warmth + t[5]! * firmness + z * (t[1]! + z * (t[2]! + z * t[3]!));
  for (let k = 0; k < bumpsAt.length; k += 1) sum += t[driftTerms + k]! * bump(z, bumpsAt[k]!);
  return sum;
}

/**
 * Edge width: the printer's own and what spreads with the dose, added in squares as blurs are. Parameters: ln own
 * width, ln width spread at the middle dose, ln of the power (0.5 is plain diffusion, Einstein 1905); how much sooner
 * it spreads with warmth and pressure.
 */
export function spreadCurve(narrowest: number): Curve {
  return {
    kind: 'spread',
    prior: [
      { mean: Math.log(narrowest), sd: 0.25 },
      { mean: Math.log(0.5 * narrowest), sd: 0.8 },
      { mean: Math.log(0.6), sd: 0.4 },
      { mean: 0, sd: 0.15 },
      { mean: 0, sd: 0.3 },
    ],
  };
}

export function curveAt({ kind }: Curve, t: ArrayLike<number>, z: number, aside: Aside): number {
  const { warmth, firmness } = aside;
  if (kind === 'drift') return driftAt(t, z, aside);
  if (kind === 'spread')
    return Math.hypot(
      Math.exp(t[0]!),
      Math.exp(t[1]! + Math.exp(t[2]!) * (z + t[3]! * warmth + t[4]! * firmness)),
    );
  const arrived = -Math.expm1(-Math.exp(Math.min(50, Math.exp(t[2]!) * (z - t[1]! + t[5]! * warmth))));
  return Math.exp(t[0]! + t[4]! * warmth + t[6]! * firmness - Math.exp(Math.min(50, t[3]! + z))) * arrived;
}

/**
 * The same with derivatives.
 * @param slopes filled with ∂/∂parameter
 * @returns the value and ∂/∂z
 */
export function curveWithSlopes(
  { kind }: Curve,
  t: ArrayLike<number>,
  z: number,
  aside: Aside,
  slopes: Float64Array,
): [value: number, alongZ: number] {
  const { warmth, firmness } = aside;
  if (kind === 'drift') {
    slopes[0] = 1;
    slopes[1] = z;
    slopes[2] = z * z;
    slopes[3] = z * z * z;
    slopes[4] = warmth;
    slopes[5] = firmness;
    let alongZ = t[1]! + z * (2 * t[2]! + 3 * z * t[3]!);
    for (let k = 0; k < bumpsAt.length; k += 1) {
      const height = bump(z, bumpsAt[k]!);
      slopes[driftTerms + k] = height;
      alongZ -= (t[driftTerms + k]! * height * (z - bumpsAt[k]!)) / bumpWidth ** 2;
    }
    return [driftAt(t, z, aside), alongZ];
  }
  if (kind === 'spread') {
    const [own, power, at] = [Math.exp(t[0]!), Math.exp(t[2]!), z + t[3]! * warmth + t[4]! * firmness];
    const spread = Math.exp(t[1]! + power * at);
    const value = Math.hypot(own, spread);
    const part = (spread * spread) / value;
    slopes[0] = (own * own) / value;
    slopes[1] = part;
    slopes[2] = part * power * at;
    slopes[3] = part * power * warmth;
    slopes[4] = part * power * firmness;
    return [value, part * power];
  }
  const [steepness, at] = [Math.exp(t[2]!), z - t[1]! + t[5]! * warmth];
  const growth = Math.exp(Math.min(50, steepness * at));
  const faded = Math.exp(Math.min(50, t[3]! + z));
  const top = Math.exp(t[0]! + t[4]! * warmth + t[6]! * firmness - faded);
  const value = top * -Math.expm1(-growth);
  const arriving = growth > 700 ? 0 : top * growth * Math.exp(-growth) * steepness;
  slopes[0] = value;
  slopes[1] = -arriving;
  slopes[2] = arriving * at;
  slopes[3] = -value * faded;
  slopes[4] = value * warmth;
  slopes[5] = arriving * warmth;
  slopes[6] = value * firmness;
  return [value, arriving - value * faded];
}
