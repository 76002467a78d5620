import { applyMatrix, inverseOf, type Matrix3 } from './matrix.js';
import type { Triple, Triple3 } from './triple.js';
import { d65, whiteFromXy } from './white.js';

export interface RgbPrimaries {
  /** CIE 1931 x, y of red, green, blue. */
  readonly red: readonly [number, number];
  readonly green: readonly [number, number];
  readonly blue: readonly [number, number];
  /** XYZ of the white, Y = 1. */
  readonly white: Triple;
}

/** IEC 61966-2-1:1999 (the same primaries as ITU-R BT.709). */
export const srgbPrimaries: RgbPrimaries = {
  red: [0.64, 0.33],
  green: [0.3, 0.6],
  blue: [0.15, 0.06],
  white: d65,
};
/** SMPTE RP 431-2 primaries with D65, as in CSS Color 4, 10.4. */
export const displayP3Primaries: RgbPrimaries = {
  red: [0.68, 0.32],
  green: [0.265, 0.69],
  blue: [0.15, 0.06],
  white: d65,
};
/** IEC 61966-2-5:2007 (opRGB). */
export const opRgbPrimaries: RgbPrimaries = {
  red: [0.64, 0.33],
  green: [0.21, 0.71],
  blue: [0.15, 0.06],
  white: d65,
};

/** Linear RGB → XYZ under the space's own white (SMPTE RP 177, 3.3). */
export function rgbToXyzMatrix(primaries: RgbPrimaries): Matrix3 {
  const r = whiteFromXy(...primaries.red);
  const g = whiteFromXy(...primaries.green);
  const b = whiteFromXy(...primaries.blue);
  const [sr, sg, sb] = applyMatrix(
    inverseOf([r[0], g[0], b[0], r[1], g[1], b[1], r[2], g[2], b[2]]),
    primaries.white,
  );
  return [r[0] * sr, g[0] * sg, b[0] * sb, r[1] * sr, g[1] * sg, b[1] * sb, r[2] * sr, g[2] * sg, b[2] * sb];
}

/** Encoded → linear, IEC 61966-2-1:1999, 5.2; odd symmetry below zero so that out-of-range colours survive. */
export function srgbToLinear(v: number): number {
  const a = Math.abs(v);
  const linear = a <= 0.04045 ? a / 12.92 : ((a + 0.055) / 1.055) ** 2.4;
  return v < 0 ? -linear : linear;
}

/** Linear → encoded, IEC 61966-2-1:1999, 5.3. */
export function linearToSrgb(v: number): number {
  const a = Math.abs(v);
  const encoded = a <= 0.0031308 ? a * 12.92 : 1.055 * a ** (1 / 2.4) - 0.055;
  return v < 0 ? -encoded : encoded;
}

const srgbToXyz = rgbToXyzMatrix(srgbPrimaries);
const xyzToSrgb = inverseOf(srgbToXyz);
const p3ToXyz = rgbToXyzMatrix(displayP3Primaries);
const xyzToP3 = inverseOf(p3ToXyz);

const decode = (rgb: Triple): Triple3 => [srgbToLinear(rgb[0]), srgbToLinear(rgb[1]), srgbToLinear(rgb[2])];
const encode = (rgb: Triple): Triple3 => [linearToSrgb(rgb[0]), linearToSrgb(rgb[1]), linearToSrgb(rgb[2])];

/** sRGB 0..1 ↔ XYZ under D65. */
export const xyzD65FromSrgb = (rgb: Triple): Triple3 => applyMatrix(srgbToXyz, decode(rgb));
export const srgbFromXyzD65 = (xyz: Triple): Triple3 => encode(applyMatrix(xyzToSrgb, xyz));
/** Display P3 0..1 ↔ XYZ under D65. It shares sRGB's curve. */
export const xyzD65FromDisplayP3 = (rgb: Triple): Triple3 => applyMatrix(p3ToXyz, decode(rgb));
export const displayP3FromXyzD65 = (xyz: Triple): Triple3 => encode(applyMatrix(xyzToP3, xyz));
