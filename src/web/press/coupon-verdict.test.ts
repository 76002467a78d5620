import { describe, expect, it } from 'vitest';
import type { WindowFieldFacts } from '#contract';
import { couponVerdict, fieldAt } from './coupon-verdict.js';
import type { LadderCoupon } from './ladder-state.js';

const seconds = [20, 60, 100];
const celsius = [190, 200];
const plane = (s: number, c: number) => 0.3 + 0.004 * s + 0.01 * (c - 190);
const field: WindowFieldFacts = {
  dwellSeconds: seconds,
  platenC: celsius,
  within: celsius.flatMap((c) => seconds.map((s) => plane(s, c))),
  densityShare: celsius.flatMap(() => [0.9, 0.99, 0.99]),
  blackHue: [],
  edgeShare: celsius.flatMap(() => [0.8, 0.9, 1.4]),
};
const coupon = (over: Partial<LadderCoupon>, dwellSeconds = 60): LadderCoupon => ({
  number: 1,
  step: { platenC: 195, dwellSeconds },
  setC: 195,
  alike: 1,
  pressed: null,
  values: null,
  byEye: null,
  pictureId: null,
  seenHex: [],
  leftOut: false,
  remarks: [],
  ...over,
});
const black = (a: number, b: number): Partial<LadderCoupon> => ({
  values: { blackLab: { lab: [22, a, b], sdLab: [0.1, 0.1, 0.1] } },
});

describe('the sign of a coupon', () => {
  // Green: too short or too cool; brown: too long or too hot. Common practice.
  it('goes by its own black', () => {
    expect(couponVerdict(coupon(black(-5, 0)), null)).toBe('under');
    expect(couponVerdict(coupon(black(5, 3)), null)).toBe('over');
    expect(couponVerdict(coupon(black(0.5, 0)), field)).toBe('right');
    expect(couponVerdict(coupon({ byEye: { black: 'green' } }), null)).toBe('under');
    expect(couponVerdict(coupon({ byEye: { black: 'neutral', edges: 'soft' } }), null)).toBe('over');
  });
  it('and where that is neutral by what the ladder says there', () => {
    expect(couponVerdict(coupon(black(-0.5, 0), 20), field)).toBe('under');
    expect(couponVerdict(coupon(black(0.5, 0), 100), field)).toBe('over');
  });
  it('is none where nothing is known', () => {
    expect(couponVerdict(coupon({}), null)).toBeNull();
    expect(couponVerdict(coupon({}), field)).toBeNull();
    expect(couponVerdict(coupon({}, 20), field)).toBeNull();
  });
});

it('reads the field between its nodes, and not outside it', () => {
  expect(fieldAt(field, { platenC: 193, dwellSeconds: 87 })?.within).toBeCloseTo(plane(87, 193), 12);
  expect(fieldAt(field, { platenC: 200, dwellSeconds: 20 })?.within).toBeCloseTo(plane(20, 200), 12);
  expect(fieldAt(field, { platenC: 189, dwellSeconds: 60 })).toBeNull();
});
