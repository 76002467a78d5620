import type { z } from 'zod';
import type { LadderCoupon, ladderNotesSchema } from '#contract';
import { checkStep } from '#craft/presswindow';
import { Problem } from '#craft/problem';
import { stepOf } from './ladder-question.js';

type Said = z.output<typeof ladderNotesSchema>['coupons'];

/** Coupons with what a person says of them. Errors: request.invalid, press.invalid, press.unsafe. */
export function withNotes(coupons: readonly LadderCoupon[], said: Said): LadderCoupon[] {
  const seen = new Set<number>();
  for (const { number, pressed } of said) {
    const planned = coupons.find((one) => one.number === number);
    if (planned === undefined || seen.has(number)) {
      throw new Problem(
        'request.invalid',
        planned === undefined
          ? `This ladder has no coupon ${number}.`
          : `Coupon ${number} is spoken of twice.`,
        {
          remedy: `Speak of its coupons ${coupons.map((one) => one.number).join(', ')}, each once.`,
          where: 'coupons',
        },
      );
    }
    seen.add(number);
    if (pressed) checkStep(stepOf({ ...planned, pressed }), `Coupon ${number}`);
  }
  return coupons.map((coupon) => {
    const one = said.find(({ number }) => number === coupon.number);
    if (one === undefined) return coupon;
    const byEye = one.byEye === undefined ? coupon.byEye : one.byEye;
    return {
      ...coupon,
      pressed: one.pressed === undefined ? coupon.pressed : one.pressed,
      // An empty judgement is none.
      byEye: byEye !== null && Object.values(byEye).some((v) => v !== undefined) ? byEye : null,
      leftOut: one.leftOut ?? coupon.leftOut,
    };
  });
}
