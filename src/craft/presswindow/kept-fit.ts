import { Problem } from '#craft/problem';
import type { LadderFit } from './fit-ladder.js';

/** A fit as plain JSON. */
export interface KeptFit {
  readonly kind: 'dyewright.ladder-fit';
  readonly version: 1;
  readonly fit: LadderFit;
}

export const keptFit = (fit: LadderFit): KeptFit => ({ kind: 'dyewright.ladder-fit', version: 1, fit });

/** @throws Problem `ladder.unusable` when this is no fit, or of a version that this program does not read */
export function fitOf(kept: unknown): LadderFit {
  throw new Problem('internal.fault', `Not there yet (${typeof kept}).`, {
    remedy: 'Wait for the next version.',
  });
}
