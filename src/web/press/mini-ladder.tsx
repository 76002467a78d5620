import type { Ladder } from '#contract';
import { CouponMark } from './coupon-mark.js';
import { couponVerdict } from './coupon-verdict.js';

/** The coupons of a ladder in a row, in order of dose, each in its seen black. Decoration beside the words. */
export function MiniLadder({ ladder }: { readonly ladder: Ladder }) {
  const coupons = [...ladder.coupons].sort(
    (one, two) =>
      (one.pressed ?? one.step).dwellSeconds - (two.pressed ?? two.step).dwellSeconds ||
      (one.pressed ?? one.step).platenC - (two.pressed ?? two.step).platenC,
  );
  const pitch = 22;
  const width = coupons.length * pitch + 6;
  return (
    <svg
      viewBox={`0 0 ${width} 28`}
      width={width}
      height={28}
      style={{ maxWidth: '100%', display: 'block' }}
      aria-hidden="true"
    >
      <rect width={width} height={28} rx={5} fill="#8c8c8c" />
      {coupons.map((coupon, i) => (
        <CouponMark
          key={coupon.number}
          black={coupon.seenHex[0] ?? null}
          leftOut={coupon.leftOut}
          verdict={couponVerdict(coupon, ladder.window)}
          x={3 + pitch * (i + 0.5)}
          y={14}
          side={17}
        />
      ))}
    </svg>
  );
}
