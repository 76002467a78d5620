import { describe, expect, it } from 'vitest';
import type { PressWindowFacts } from '#contract';
import { couponVerdict } from './coupon-verdict.js';
import type { LadderCoupon } from './ladder-state.js';

const sure = (value: number) => ({ value, low: value, high: value });
const window: PressWindowFacts = {
  platenC: 196,
  setC: 196,
  pressureBar: null,
  fromSeconds: sure(44),
  toSeconds: sure(62),
  opens: 'dye still arriving',
  closes: 'black turning brown',
  windowProbability: 1,
  recipe: {
    platenC: 196,
    setC: 196,
    dwellSeconds: 52,
    pressureBar: null,
    middleSeconds: sure(52),
    probabilityWithin: 1,
    tolerance: { shorterSeconds: 6, longerSeconds: 6, coolerK: 2, hotterK: 2 },
  },
  activation: { kJPerMol: sure(90), isFitted: false, basis: '' },
  isSure: true,
  next: [],
  remarks: [],
  words: '',
};
const coupon = (over: Partial<LadderCoupon>, dwellSeconds = 60, platenC = 196): LadderCoupon => ({
  number: 1,
  step: { platenC, dwellSeconds },
  setC: platenC,
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
  it('goes by its own black where there is no window', () => {
    expect(couponVerdict(coupon(black(-5, 0)), null)).toBe('under');
    expect(couponVerdict(coupon(black(5, 3)), null)).toBe('over');
    expect(couponVerdict(coupon({ byEye: { black: 'green' } }), null)).toBe('under');
    expect(couponVerdict(coupon({ byEye: { black: 'neutral', edges: 'soft' } }), null)).toBe('over');
  });
  it.each([
    [35, 'under'],
    [42, 'under'],
    [50, 'right'],
    [61, 'right'],
    [73, 'over'],
  ])('with a window it goes by its time alone: %d s is %s, whatever its black', (seconds, verdict) => {
    for (const seen of [black(-5, 0), black(0, 0), black(5, 3), { byEye: { edges: 'soft' as const } }])
      expect(couponVerdict(coupon(seen, seconds), window)).toBe(verdict);
  });
  // Arrhenius by hand: 90 000 / 8.314 · (1/469.15 − 1/479.15) = 0.4816, e^0.4816 = 1.619: 206 °C asks 44/1.619 = 27.2 s.
  it('and elsewhere by the time that gives the same dose', () => {
    expect(couponVerdict(coupon(black(0, 0), 27, 206), window)).toBe('under');
    expect(couponVerdict(coupon(black(0, 0), 28, 206), window)).toBe('right');
    expect(couponVerdict(coupon(black(0, 0), 40, 206), window)).toBe('over');
  });
  it('goes by what was really pressed', () => {
    const pressed = { platenC: 196, dwellSeconds: 80 };
    expect(couponVerdict(coupon({ ...black(0, 0), pressed }, 50), window)).toBe('over');
  });
  it('is none where nothing is known', () => {
    expect(couponVerdict(coupon({}), null)).toBeNull();
    expect(couponVerdict(coupon({}), window)).toBeNull();
  });
});
