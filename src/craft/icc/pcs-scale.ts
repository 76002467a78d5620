import { d50 } from '#craft/colour';
import type { InPlace } from './lut-function.js';

type Xyz = readonly [number, number, number];

/** XYZ → XYZ, axis by axis: out = scale · in + offset. */
export interface PcsScale {
  readonly scale: Xyz;
  readonly offset: Xyz;
}

/** Black point compensation (ISO 18619, 7): white stays, one black goes to the other. */
export function blackPointScale(from: Xyz, to: Xyz): PcsScale {
  const along = (i: 0 | 1 | 2): readonly [number, number] => {
    const t = from[i] - d50[i];
    return [(to[i] - d50[i]) / t, (-d50[i] * (to[i] - from[i])) / t];
  };
  const [x, y, z] = [along(0), along(1), along(2)];
  return { scale: [x[0], y[0], z[0]], offset: [x[1], y[1], z[1]] };
}

export function applyScale({ scale, offset }: PcsScale): InPlace {
  return (io) => {
    io[0] = io[0]! * scale[0] + offset[0];
    io[1] = io[1]! * scale[1] + offset[1];
    io[2] = io[2]! * scale[2] + offset[2];
  };
}

export const scaleBetweenBlacks = (from: Xyz, to: Xyz): InPlace => applyScale(blackPointScale(from, to));

/** A change too small to see is left out, as Little CMS does (sum of deviations under 0.002, offsets in its encoding). */
export function isNegligible({ scale, offset }: PcsScale): boolean {
  const full = 1 + 32767 / 32768;
  let sum = 0;
  for (const v of scale) sum += Math.abs(v - 1);
  for (const v of offset) sum += Math.abs(v / full);
  return sum < 0.002;
}
