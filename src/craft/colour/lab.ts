import type { Triple, Triple3 } from './triple.js';
import { d50 } from './white.js';

/** CIE 015:2018, 8.2.1: the cube root with its straight foot. 216/24389 and 841/108 are the exact constants. */
const foot = 216 / 24389;
const slope = 841 / 108;

export const labForward = (t: number): number => (t > foot ? Math.cbrt(t) : slope * t + 16 / 116);
export const labInverse = (f: number): number => (f > 24 / 116 ? f * f * f : (f - 16 / 116) / slope);

/** XYZ (Y = 1 for white) → CIELAB. */
export function labFromXyz(xyz: Triple, white: Triple = d50): Triple3 {
  const fx = labForward(xyz[0] / white[0]);
  const fy = labForward(xyz[1] / white[1]);
  const fz = labForward(xyz[2] / white[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}

/** CIELAB → XYZ. */
export function xyzFromLab(lab: Triple, white: Triple = d50): Triple3 {
  const fy = (lab[0] + 16) / 116;
  return [
    labInverse(fy + lab[1] / 500) * white[0],
    labInverse(fy) * white[1],
    labInverse(fy - lab[2] / 200) * white[2],
  ];
}
