import type { DeviceLink } from './link.js';
import { notYet } from './not-yet.js';
import type { IccProfile, TransformOptions } from './types.js';

/** The whole way from source to destination as one link; `destination` must be RGB. */
export function buildLink(_options: TransformOptions): DeviceLink {
  return notYet();
}

/** Printer RGB → sRGB for the screen, relative to the paper's white (no black point compensation). */
export function buildProofLink(_path: IccProfile): DeviceLink {
  return notYet();
}
