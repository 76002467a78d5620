import { notYet } from './not-yet.js';
import type { IccProfile } from './types.js';

export type BuiltinProfileName =
  | 'srgb'
  | 'display-p3'
  | 'adobe-rgb-compatible'
  | 'grey-srgb'
  | 'grey-gamma-2.2';

/** Profiles made from published primaries and curves (v4, matrix or grey). */
export function builtinProfile(_name: BuiltinProfileName): IccProfile {
  return notYet();
}
