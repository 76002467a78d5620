import { type LinearRgb, luminance } from '#craft/patchreading';

/**
 * How far the mean light of one patch would differ if its coupon were taken up, laid somewhere else and scanned again.
 * What the pixels themselves say (`sdOfMean`) knows nothing of that, so three things are added, as independent causes:
 *
 * - lamp and place on the glass, a share of the light: what evening by the coupon's own ground leaves. 0.002, a guess.
 * - light thrown in from what lies round the coupon, a share of the ground's light. 0.0003, a guess; it is what limits
 *   how well deep blacks are told apart.
 * - the steps of 8 bits of sRGB (IEC 61966-2-1), spread evenly over one step: step/√12.
 */
const lampShare = 0.002;
const strayShare = 0.0003;

export function sdOfLight(light: number, sdOfMean: number, groundLight: number): number {
  return Math.hypot(
    sdOfMean,
    lampShare * Math.max(0, light),
    strayShare * groundLight,
    stepOfByte(light) / Math.sqrt(12),
  );
}

/** One step of 8 bits at a linear light, 0..1: the slope of sRGB's curve over 255. */
function stepOfByte(light: number): number {
  const v = Math.min(1, Math.max(0, light));
  if (v <= 0.0031308) return 1 / (12.92 * 255);
  const encoded = 1.055 * v ** (1 / 2.4) - 0.055;
  return ((2.4 / 1.055) * ((encoded + 0.055) / 1.055) ** 1.4) / 255;
}

export interface MeasuredFigure {
  readonly value: number;
  readonly sd: number;
}

/** No light is taken for less than this share of the ground's: nothing pressed is deeper than a density of 3.5. */
const leastShare = 10 ** -3.5;

/** Optical density over the ground, −log₁₀ of the share of light, with its standard deviation by propagation. */
export function densityOver(
  light: number,
  sdOfMean: number,
  ground: number,
  groundSdOfMean: number,
): MeasuredFigure {
  const own = Math.max(light, leastShare * ground);
  const sd = sdOfLight(own, sdOfMean, ground) / own;
  const groundSd = sdOfLight(ground, groundSdOfMean, ground) / ground;
  return { value: Math.log10(ground / own), sd: Math.LOG10E * Math.hypot(sd, groundSd) };
}

/** Of a luminance, from those of its channels, taken as independent. */
export function sdOfLuminance(sd: LinearRgb): number {
  return Math.hypot(luminance([sd[0], 0, 0]), luminance([0, sd[1], 0]), luminance([0, 0, sd[2]]));
}
