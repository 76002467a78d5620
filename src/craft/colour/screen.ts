import { xyzD50FromD65, xyzD65FromD50 } from './adapt.js';
import { labFromXyz, xyzFromLab } from './lab.js';
import { srgbFromXyzD65, xyzD65FromSrgb } from './rgb.js';
import type { Triple, Triple3 } from './triple.js';

/** sRGB 0..1 → CIELAB under D50 (Bradford), and back. */
export const labFromSrgb = (rgb: Triple): Triple3 => labFromXyz(xyzD50FromD65(xyzD65FromSrgb(rgb)));
export const srgbFromLab = (lab: Triple): Triple3 => srgbFromXyzD65(xyzD65FromD50(xyzFromLab(lab)));

/** sRGB 0..255, rounded and clipped channel by channel: for showing a colour, not for judging it. */
export function srgb8FromLab(lab: Triple): Triple3 {
  const rgb = srgbFromLab(lab);
  const byte = (v: number): number => Math.round(255 * Math.min(1, Math.max(0, v)));
  return [byte(rgb[0]), byte(rgb[1]), byte(rgb[2])];
}
