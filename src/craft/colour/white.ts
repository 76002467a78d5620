import type { Triple, Triple3 } from './triple.js';

/** The PCS illuminant as ICC.1 (7.2.16) rounds it: D50, 2°. */
export const d50: Triple = [0.9642, 1, 0.8249];

/** XYZ with Y = 1 of a chromaticity. */
export function whiteFromXy(x: number, y: number): Triple3 {
  return [x / y, 1, (1 - x - y) / y];
}

/** D65, 2°, from the chromaticity IEC 61966-2-1 gives (0.3127, 0.3290). */
export const d65: Triple = whiteFromXy(0.3127, 0.329);
