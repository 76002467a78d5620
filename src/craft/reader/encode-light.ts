import { labForward } from '#craft/colour';
import type { LinearRgb } from '#craft/patchreading';

/**
 * Linear light as CIELAB's cube root with its straight foot: equal steps look about equal, and noise near black stays
 * in bounds.
 */
export const encodeLight = (rgb: LinearRgb): [number, number, number] => [
  labForward(rgb[0]),
  labForward(rgb[1]),
  labForward(rgb[2]),
];

export const distance = (a: ArrayLike<number>, b: ArrayLike<number>): number =>
  Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!);
