import type { Ladder, PressStepFacts, WindowFieldFacts } from '#contract';
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
 * A coupon for its sign in a picture. Its own black says most: green is under, brown over (common practice), within the
 * window's own bound. A neutral black goes by what the ladder as a whole says of density and edges there. Null: nothing
 * is known of it.
 */
export function couponVerdict(coupon: Coupon, field: WindowFieldFacts | null): CouponVerdict | null {
  const lab = coupon.values?.blackLab?.lab;
  const eye = coupon.byEye;
  const isKnown = coupon.values !== null || eye?.black !== undefined || eye?.edges !== undefined;
  if (!isKnown) return null;
  if (lab) {
    const hue = towardsBrown(lab);
    if (Math.abs(hue) > usualRules.neutralWithin) return hue < 0 ? 'under' : 'over';
  } else if (eye?.black === 'green') return 'under';
  else if (eye?.black === 'brown') return 'over';
  if (eye?.edges === 'soft' && coupon.values?.edgeUm === undefined) return 'over';
  const there = field && fieldAt(field, coupon.pressed ?? coupon.step);
  if (there?.edgeShare != null && there.edgeShare > 1) return 'over';
  // Density falls short before its top and beyond it; the lean of the black tells which.
  if (there && there.densityShare < usualRules.densityShare)
    return lab && towardsBrown(lab) > 0 ? 'over' : 'under';
  return 'right';
}

/** The field at a setting, between its nodes; null outside. */
export function fieldAt(field: WindowFieldFacts, step: PressStepFacts) {
  const row = between(field.platenC, step.platenC);
  const column = between(field.dwellSeconds, step.dwellSeconds);
  if (!row || !column) return null;
  const across = field.dwellSeconds.length;
  const at = (values: readonly (number | null)[]): number | null => {
    let sum = 0;
    for (const [r, rowShare] of row) {
      for (const [c, columnShare] of column) {
        const value = values[r * across + c];
        if (value == null) return null;
        sum += rowShare * columnShare * value;
      }
    }
    return sum;
  };
  return {
    within: at(field.within) ?? 0,
    densityShare: at(field.densityShare) ?? 1,
    edgeShare: at(field.edgeShare),
  };
}

/** The two neighbours of a value on a rising axis, with their shares. */
function between(axis: readonly number[], value: number): [number, number][] | null {
  const last = axis.length - 1;
  const [low, high] = [axis[0], axis[last]];
  if (low === undefined || high === undefined || value < low || value > high) return null;
  const i = Math.max(0, Math.min(last - 1, axis.findIndex((at) => at >= value) - 1));
  const [a, b] = [axis[i] ?? low, axis[i + 1] ?? high];
  const share = b > a ? (value - a) / (b - a) : 0;
  return last === 0
    ? [[0, 1]]
    : [
        [i, 1 - share],
        [i + 1, share],
      ];
}
