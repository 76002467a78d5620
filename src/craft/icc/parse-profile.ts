import { notYet } from './not-yet.js';
import type { IccProfile } from './types.js';

/** Takes a profile apart. Throws Problem `profile.broken` if it is malformed. */
export function parseProfile(_bytes: Uint8Array): IccProfile {
  return notYet();
}
