import { describe, expect, it } from 'vitest';
import type { Ladder } from '#contract';
import { isKnown, type LadderCoupon, ladderStages, nextStage, pressStanding } from './ladder-state.js';

const coupon = (number: number, over: Partial<LadderCoupon> = {}): LadderCoupon => ({
  number,
  step: { platenC: 200, dwellSeconds: 40 + 10 * number },
  setC: 200,
  alike: number,
  pressed: null,
  values: null,
  byEye: null,
  pictureId: null,
  seenHex: [],
  leftOut: false,
  remarks: [],
  ...over,
});
const ladder = (over: Partial<Ladder> = {}): Ladder =>
  ({
    sheetId: 'A',
    coupons: [1, 2, 3, 4].map((number) => coupon(number)),
    window: null,
    demo: false,
    ...over,
  }) as Ladder;
const sure = (isSure: boolean) => ladder({ window: { isSure } as Ladder['window'] });
const judged = { byEye: { black: 'green' as const } };

describe('how far a ladder has come', () => {
  it('goes by ticks first, and by what was read once it was', () => {
    expect(nextStage(ladder(), {})).toBe('pressed');
    expect(nextStage(ladder(), { pressed: [1, 2, 3] })).toBe('pressed');
    expect(nextStage(ladder(), { pressed: [1, 2, 3, 4] })).toBe('read');
    const read = ladder({ coupons: [1, 2, 3, 4].map((number) => coupon(number, judged)) });
    expect(nextStage(read, {})).toBe('window');
    expect(ladderStages(read, {}).map(({ done }) => done)).toEqual([true, true, true, false]);
  });
  it('does not wait for what was left out', () => {
    const one = ladder({
      coupons: [coupon(1, judged), coupon(2, judged), coupon(3, { leftOut: true }), coupon(4, judged)],
    });
    expect(nextStage(one, {})).toBe('window');
  });
  it('takes an empty judgement for none', () => {
    expect(isKnown(coupon(1, { byEye: {} }))).toBe(false);
    expect(isKnown(coupon(1, judged))).toBe(true);
  });
});

describe('where the place stands', () => {
  const said = () => ({});
  it('is told in one sentence', () => {
    expect(pressStanding([], said)).toContain('still copied from leaflets');
    expect(pressStanding([ladder({ demo: true })], said)).toContain('demo ladder');
    expect(pressStanding([ladder()], said)).toBe('A first ladder is waiting to be pressed.');
    expect(pressStanding([sure(true)], said)).toBe('One recipe measured, and it is sure.');
    expect(pressStanding([sure(true), sure(false), ladder()], said)).toBe(
      'Two recipes measured; one would be surer with a further coupon. One ladder is under way.',
    );
    expect(pressStanding([sure(false), sure(false)], said)).toBe(
      'Two recipes measured; further coupons would make them surer.',
    );
  });
});
