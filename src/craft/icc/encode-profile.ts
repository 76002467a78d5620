import { notYet } from './not-yet.js';
import type { IccProfile } from './types.js';

/** The bytes of a matrix or grey profile, so that a file can carry it. */
export function encodeProfile(_profile: IccProfile): Uint8Array {
  return notYet();
}
