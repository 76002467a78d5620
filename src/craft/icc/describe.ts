import { notYet } from './not-yet.js';
import type { IccProfile, ProfileDescription } from './types.js';

export function describeProfile(_profile: IccProfile): ProfileDescription {
  return notYet();
}
