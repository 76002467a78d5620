import { xyzD50FromD65, xyzD65FromD50 } from './adapt.js';
import { labFromXyz, xyzFromLab } from './lab.js';
import { applyMatrix, inverseOf, type Matrix3 } from './matrix.js';
import type { Triple, Triple3 } from './triple.js';

/** Ottosson 2020, with the matrices recomputed for the exact D65 chromaticity as in CSS Color 4, 18. */
const xyzToLms: Matrix3 = [
  0.819022437996703, 0.3619062600528904, -0.1288737815209879, 0.0329836539323885, 0.9292868615863434,
  0.0361446663506424, 0.0481771893596242, 0.2642395317527308, 0.6335478284694309,
];
const lmsToOklab: Matrix3 = [
  0.210454268309314, 0.7936177747023054, -0.0040720430116193, 1.9779985324311684, -2.4285922420485799,
  0.450593709617411, 0.0259040424655478, 0.7827717124575296, -0.8086757549230774,
];
const lmsToXyz = inverseOf(xyzToLms);
const oklabToLms = inverseOf(lmsToOklab);

/** XYZ under D65 → Oklab (L 0..1). For OkLCh pass the result to `lchFromLab`. */
export function oklabFromXyzD65(xyz: Triple): Triple3 {
  const lms = applyMatrix(xyzToLms, xyz);
  return applyMatrix(lmsToOklab, [Math.cbrt(lms[0]), Math.cbrt(lms[1]), Math.cbrt(lms[2])]);
}

export function xyzD65FromOklab(oklab: Triple): Triple3 {
  const lms = applyMatrix(oklabToLms, oklab);
  return applyMatrix(lmsToXyz, [lms[0] ** 3, lms[1] ** 3, lms[2] ** 3]);
}

/** CIELAB under D50 ↔ Oklab. */
export const oklabFromLab = (lab: Triple): Triple3 => oklabFromXyzD65(xyzD65FromD50(xyzFromLab(lab)));
export const labFromOklab = (oklab: Triple): Triple3 => labFromXyz(xyzD50FromD65(xyzD65FromOklab(oklab)));
