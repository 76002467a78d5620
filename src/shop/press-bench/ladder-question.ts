import type { Ladder } from '#contract';
import type { Coupon, CouponValues, PressStep, WindowPlace } from '#craft/presswindow';
import { couponCounts } from '#craft/presswindow';
import type { LadderQuestion } from './bench-work.js';
import { listed, plural } from './words.js';

type LadderCouponFacts = Ladder['coupons'][number];

/** What is known of a coupon, at what it was really pressed. */
export const stepOf = ({ step, pressed }: LadderCouponFacts): PressStep => {
  if (pressed === null) return plain(step);
  // Who says nothing of pressure has left it as planned.
  const pressureBar = pressed.pressureBar ?? step.pressureBar;
  return plain({ ...pressed, ...(pressureBar === undefined ? {} : { pressureBar }) });
};

const plain = ({ platenC, dwellSeconds, pressureBar }: LadderCouponFacts['step']): PressStep => ({
  platenC,
  dwellSeconds,
  ...(pressureBar === undefined ? {} : { pressureBar }),
});

const isKnown = ({ values, byEye }: LadderCouponFacts): boolean => values !== null || byEye !== null;

/** Where so far from the start was pressed, the window is told for what was pressed. */
const nearStartK = 3;

/** What the window is to be made from, or why there is none yet. */
export function questionOf(
  ladder: Pick<Ladder, 'plan' | 'coupons'>,
): { question: LadderQuestion } | { missing: string } {
  const { plan, coupons } = ladder;
  const used = coupons.filter((one) => isKnown(one) && !one.leftOut);
  if (used.length < couponCounts.fewest) return { missing: tooFew(coupons, used.length) };
  const facts = used.map((one): Coupon => {
    const values = one.values as CouponValues | null;
    const byEye = one.byEye as Coupon['byEye'] | null;
    return {
      id: String(one.number),
      step: stepOf(one),
      ...(values === null ? {} : { values }),
      ...(byEye ? { byEye } : {}),
    };
  });
  const limits = {
    platenC: plan.limits.platenC,
    dwellSeconds: plan.limits.dwellSeconds,
    ...(plan.limits.pressureBar ? { pressureBar: plan.limits.pressureBar } : {}),
  };
  return {
    question: { coupons: facts, place: placeOf(plan, facts), limits, offsetK: plan.offsetK ?? 0 },
  };
}

function placeOf({ start, limits }: Ladder['plan'], coupons: readonly Coupon[]): WindowPlace {
  const temperatures = coupons.map(({ step }) => step.platenC);
  const [coolest, hottest] = [Math.min(...temperatures), Math.max(...temperatures)];
  const isNear = start.platenC >= coolest - nearStartK && start.platenC <= hottest + nearStartK;
  const mean = temperatures.reduce((sum, v) => sum + v, 0) / temperatures.length;
  const times = coupons.map(({ step }) => step.dwellSeconds);
  const pressures = coupons.flatMap(({ step }) => (step.pressureBar === undefined ? [] : [step.pressureBar]));
  const usual = Math.exp(pressures.reduce((sum, bar) => sum + Math.log(bar), 0) / pressures.length);
  return {
    platenC: isNear ? start.platenC : Math.round(mean),
    ...(pressures.length === 0 ? {} : { pressureBar: start.pressureBar ?? Math.round(10 * usual) / 10 }),
    dwellSeconds: [Math.min(limits.dwellSeconds[0], ...times), Math.max(limits.dwellSeconds[1], ...times)],
  };
}

function tooFew(coupons: readonly LadderCouponFacts[], used: number): string {
  const wanting = coupons.filter((one) => !isKnown(one) && !one.leftOut).map(({ number }) => number);
  if (used === 0 && wanting.length === coupons.length)
    return `Press the ${coupons.length} coupons in their order, then scan them together or judge them by eye.`;
  const have = `${used} of ${coupons.length} coupons ${plural(used, 'is', 'are')} known; a window needs at least ${couponCounts.fewest}.`;
  return wanting.length === 0
    ? `${have} Take back some that were left out, or press further ones.`
    : `${have} Scan or judge ${plural(wanting.length, 'coupon', 'coupons')} ${listed(wanting)} too.`;
}
