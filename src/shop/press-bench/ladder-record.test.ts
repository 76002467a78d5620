import { describe, expect, it } from 'vitest';
import type { Ladder, LadderCoupon, LadderPicture } from '#contract';
import type { CouponSeen } from './coupon-values.js';
import { questionOf, stepOf } from './ladder-question.js';
import { withPictures } from './ladder-record.js';
import { eyesAgainstScan, ladderRemarks } from './ladder-words.js';

const seen = (number: number, density: number, hue = 0): CouponSeen & { number: number } => ({
  number,
  values: {
    density: { black: { value: density, sd: 0.02 } },
    blackLab: { lab: [16, hue, 0], sdLab: [1, 0.5, 0.5] },
  },
  seenHex: [],
  remarks: [],
});

const picture = (id: string, more: Partial<LadderPicture> = {}): LadderPicture => ({
  id,
  fileName: `${id}.png`,
  sourceHash: 'a'.repeat(64),
  readerId: null,
  readerName: null,
  grade: 'B',
  surface: 'piece',
  coupons: [],
  remarks: [],
  createdAt: '2026-03-01T10:00:00.000Z',
  ...more,
});

const coupon = (number: number, dwellSeconds: number): LadderCoupon => ({
  number,
  step: { platenC: 200, dwellSeconds },
  setC: 203,
  alike: number,
  pressed: null,
  values: null,
  byEye: null,
  pictureId: null,
  seenHex: [],
  leftOut: false,
  remarks: [],
});

const ladder = (offsetK: number | null = null): Ladder => ({
  sheetId: 'X',
  setupName: 'Studio',
  blankId: 'tile',
  blankName: 'Tile',
  plan: {
    kind: 'ladder',
    words: '',
    factors: ['time'],
    start: { platenC: 200, dwellSeconds: 50 },
    limits: { platenC: [190, 208], dwellSeconds: [30, 90] },
    temperatureChanges: 0,
    offsetK,
    pressId: offsetK === null ? null : 'press',
    pressName: null,
    couponMm: 45,
    coupons: [],
  },
  coupons: [30, 40, 50, 65, 90].map((seconds, i) => coupon(i + 1, seconds)),
  pictures: [],
  standing: '',
  window: null,
  missing: null,
  updatedAt: '2026-03-01T10:00:00.000Z',
  demo: false,
});

describe('which picture counts', () => {
  const first = { picture: picture('first'), read: [seen(1, 1.6), seen(2, 1.9)] };

  it('the newest that shows the coupon; one that says otherwise is told, one that agrees is not', () => {
    const again = { picture: picture('again'), read: [seen(1, 1.61), seen(2, 1.5)] };
    const { coupons } = withPictures(ladder(), [first, again]);
    expect(coupons.map(({ values }) => values?.density?.black?.value)).toEqual([
      1.61,
      1.5,
      undefined,
      undefined,
      undefined,
    ]);
    expect(coupons[0]!.remarks).toEqual([]);
    expect(coupons[1]!.remarks[0]).toMatch(/“again.png” says another density of black than “first.png”/);
  });

  it('paper never counts, and what is gone leaves nothing behind', () => {
    const paper = { picture: picture('paper', { surface: 'paper' }), read: [seen(1, 0.9)] };
    expect(withPictures(ladder(), [first, paper]).coupons[0]!.pictureId).toBe('first');
    const emptied = withPictures(withPictures(ladder(), [first]), []);
    expect(emptied.coupons).toEqual(ladder().coupons);
  });
});

describe('what a window is asked from', () => {
  const eye = (one: LadderCoupon): LadderCoupon => ({ ...one, byEye: { black: 'neutral' } });

  it('too few are named with what is wanting; one left out is not asked for', () => {
    const some = { ...ladder(), coupons: ladder().coupons.map((one, i) => (i < 2 ? eye(one) : one)) };
    some.coupons[4] = { ...some.coupons[4]!, leftOut: true };
    expect(questionOf(some)).toEqual({
      missing: '2 of 5 coupons are known; a window needs at least 4. Scan or judge coupons 3 and 4 too.',
    });
  });

  it('at what was really pressed, and the place goes with it', () => {
    const hotter = ladder().coupons.map((one) => ({
      ...eye(one),
      pressed: { platenC: 207, dwellSeconds: one.step.dwellSeconds },
    }));
    const asked = questionOf({ ...ladder(), coupons: hotter });
    expect('question' in asked && asked.question.place).toEqual({ platenC: 207, dwellSeconds: [30, 90] });
    const withBar = { ...coupon(1, 30), step: { platenC: 200, dwellSeconds: 30, pressureBar: 2 } };
    expect(stepOf({ ...withBar, pressed: { platenC: 207, dwellSeconds: 31 } })).toEqual({
      platenC: 207,
      dwellSeconds: 31,
      pressureBar: 2,
    });
  });
});

describe('what a window rests on is said', () => {
  const whole = (pictures: LadderPicture[]): Ladder => {
    const reads = pictures.map((one, i) => ({
      picture: one,
      read: i === 0 ? [1, 2, 3].map((n) => seen(n, 1.5)) : [4, 5].map((n) => seen(n, 1.5)),
    }));
    return withPictures(ladder(1), reads);
  };

  it('nothing, where there is nothing to say', () => {
    expect(ladderRemarks(whole([picture('a'), picture('b')]), 1)).toEqual([]);
  });

  it('coupons wanting, scanners of different worth, a scanner at its word, a platen measured since', () => {
    const said = (pictures: LadderPicture[], offset: number | null) =>
      ladderRemarks(whole(pictures), offset).join(' ');
    expect(said([picture('a')], 1)).toMatch(/Coupons 4 and 5 were neither read nor judged.*other 3/);
    expect(said([picture('a'), picture('b', { readerId: 'other' })], 1)).toMatch(/different scanners/);
    expect(said([picture('a', { grade: 'D' }), picture('b', { grade: 'D' })], 1)).toMatch(/own word/);
    expect(said([picture('a'), picture('b')], -4)).toMatch(/platen is 5 °C cooler/);
  });

  it('eyes and scan that judge a black the opposite way', () => {
    const coupons = [
      { ...coupon(1, 30), values: seen(1, 1.5, 6).values, byEye: { black: 'green' as const } },
      { ...coupon(2, 40), values: seen(2, 1.5, 1).values, byEye: { black: 'green' as const } },
      { ...coupon(3, 50), values: seen(3, 1.5, -6).values, byEye: { black: 'neutral' as const } },
      { ...coupon(4, 60), values: seen(4, 1.5, -6).values, byEye: { black: 'green' as const } },
    ];
    expect([...eyesAgainstScan({ coupons }).keys()]).toEqual([1, 3]);
  });
});
