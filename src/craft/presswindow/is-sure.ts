import type { LadderFit } from './fit-ladder.js';
import { nextCoupons } from './next-coupon.js';
import type { PressWindow } from './press-window.js';

/** Share of the worlds in which the recipe must lie within the window: as its words have it from there on. */
const leastWithin = 0.95;

/**
 * A further coupon would not move the recipe by more than the press repeats itself, and the recipe is within the window
 * in nearly every world. What the best further coupon would tell is the variance it takes off the middle (`nextCoupons`);
 * the middle is expected to move by the root of that.
 */
export function isSure(window: PressWindow, fit: LadderFit): boolean {
  if (window.recipe.probabilityWithin < leastWithin) return false;
  const temperatures = fit.coupons.map(({ step }) => step.platenC);
  const [best] = nextCoupons(
    fit,
    window.place,
    {
      platenC: [
        Math.min(...temperatures, window.place.platenC),
        Math.max(...temperatures, window.place.platenC),
      ],
      dwellSeconds: window.place.dwellSeconds,
    },
    window.rules,
    1,
  );
  if (best === undefined) return true;
  const moveLog = Math.sqrt(Math.max(0, best.sdLogNow ** 2 - best.sdLogThen ** 2));
  return moveLog <= fit.pressRepeatsLog;
}
