import type { Ladder, PressStepFacts, PressWindowFacts } from '#contract';
import { gasConstant } from '#craft/heat';
import { towardsBrown, usualRules } from '#craft/presswindow';

export type CouponVerdict = 'under' | 'right' | 'over';
export const verdictSigns: Record<CouponVerdict, string> = { under: '−', right: '✓', over: '+' };
export const verdictWords: Record<CouponVerdict, string> = {
  under: 'too little',
  right: 'right',
  over: 'too much',
};

type Coupon = Ladder['coupons'][number];

/**
 * A coupon for its sign in a picture. With a window it is a function of what was set alone: its time, carried to the
 * window's temperature by the fitted activation energy (the Arrhenius equivalent time), lies before, within or beyond
 * the window, so signs never contradict the picture. Without one, or at another pressure than the window's, its own
 * black says: green is under, brown over (common practice). Null: nothing is known of it.
 */
export function couponVerdict(coupon: Coupon, window: PressWindowFacts | null): CouponVerdict | null {
  const lab = coupon.values?.blackLab?.lab;
  const eye = coupon.byEye;
  const isKnown = coupon.values !== null || eye?.black !== undefined || eye?.edges !== undefined;
  if (!isKnown) return null;
  const step = coupon.pressed ?? coupon.step;
  if (window && isItsPressure(step, window)) {
    const seconds = secondsAt(window.platenC, step, window.activation.kJPerMol.value);
    if (seconds < window.fromSeconds.value) return 'under';
    return seconds > window.toSeconds.value ? 'over' : 'right';
  }
  if (lab) {
    const hue = towardsBrown(lab);
    if (Math.abs(hue) > usualRules.neutralWithin) return hue < 0 ? 'under' : 'over';
  } else if (eye?.black === 'green') return 'under';
  else if (eye?.black === 'brown') return 'over';
  return eye?.edges === 'soft' && coupon.values?.edgeUm === undefined ? 'over' : 'right';
}

/** The time at another temperature that gives the dye the same dose. */
function secondsAt(platenC: number, step: PressStepFacts, kJPerMol: number): number {
  const inverse = (celsius: number) => 1 / (celsius + 273.15);
  const exponent = ((kJPerMol * 1000) / gasConstant) * (inverse(platenC) - inverse(step.platenC));
  return step.dwellSeconds * Math.exp(exponent);
}

const isItsPressure = (step: PressStepFacts, window: PressWindowFacts): boolean =>
  step.pressureBar === undefined ||
  window.pressureBar === null ||
  Math.abs(step.pressureBar / window.pressureBar - 1) < 0.1;
