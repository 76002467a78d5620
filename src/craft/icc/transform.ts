import { notYet } from './not-yet.js';
import type { IccProfile, Transform, TransformOptions } from './types.js';

/** The exact chain, as the ICC specifies it and Little CMS reads it. */
export function createTransform(_options: TransformOptions): Transform {
  return notYet();
}

/** Device values 0..1 → CIELAB (D50, 2°, media-relative) through the profile's colorimetric side. */
export function deviceToLab(
  _profile: IccProfile,
  _intent: 'perceptual' | 'relative' | 'saturation' = 'relative',
): (device: ArrayLike<number>) => [number, number, number] {
  return notYet();
}
