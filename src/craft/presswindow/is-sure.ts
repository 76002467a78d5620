import { Problem } from '#craft/problem';
import type { LadderFit } from './fit-ladder.js';
import type { PressWindow } from './press-window.js';

/** A further coupon would not move the recipe by more than the press repeats itself. */
export function isSure(window: PressWindow, fit: LadderFit): boolean {
  throw new Problem('internal.fault', `Not there yet (${window.words}, ${fit.coupons.length}).`, {
    remedy: 'Wait for the next version.',
  });
}
