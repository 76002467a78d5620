import { describe, expect, it } from 'vitest';
import type { Blank, PrintSetup } from '#contract';
import { testSheetOrderSchema } from '#contract';
import { type LadderChoice, ladderOrderOf, plannedRange } from './plan-order.js';

const choice: LadderChoice = {
  blank: { id: 'tile' } as Blank,
  setup: { id: 'desk' } as PrintSetup,
  pressId: null,
  coupons: 9,
  factors: ['time'],
  ranges: {},
  start: null,
  limits: null,
};

describe('the order of a ladder', () => {
  it('leaves to the shop what was not said, and is one the contract takes', () => {
    const order = ladderOrderOf(choice);
    expect(order).toEqual({
      kind: 'ladder',
      setupId: 'desk',
      blankId: 'tile',
      coupons: 9,
      factors: [{ kind: 'time' }],
    });
    expect(testSheetOrderSchema.safeParse(order).success).toBe(true);
  });
  it('carries ranges, press, start and limits', () => {
    const order = ladderOrderOf({
      ...choice,
      pressId: 'big',
      factors: ['time', 'temperature'],
      ranges: { time: [30, null], temperature: [185, 205] },
      start: { platenC: 195, dwellSeconds: 50 },
      limits: { platenC: [180, 210], dwellSeconds: [20, 120] },
    });
    expect(order).toMatchObject({
      pressId: 'big',
      factors: [
        { kind: 'time', low: 30 },
        { kind: 'temperature', low: 185, high: 205 },
      ],
    });
    expect(testSheetOrderSchema.safeParse(order).success).toBe(true);
  });
  it('waits for a blank, a setup, something to vary, and both ends of a pressure', () => {
    expect(ladderOrderOf({ ...choice, blank: null })).toBeNull();
    expect(ladderOrderOf({ ...choice, setup: null })).toBeNull();
    expect(ladderOrderOf({ ...choice, factors: [] })).toBeNull();
    expect(ladderOrderOf({ ...choice, factors: ['pressure'] })).toBeNull();
    expect(ladderOrderOf({ ...choice, factors: ['pressure'], ranges: { pressure: [1, null] } })).toBeNull();
    expect(ladderOrderOf({ ...choice, factors: ['pressure'], ranges: { pressure: [1, 3] } })).not.toBeNull();
  });
});

it('tells the range that a plan presses', () => {
  const coupons = [40, 60, 90].map((dwellSeconds) => ({ step: { platenC: 200, dwellSeconds } }));
  const plan = { coupons } as never;
  expect(plannedRange(plan, 'time')).toEqual([40, 90]);
  expect(plannedRange(plan, 'temperature')).toEqual([200, 200]);
  expect(plannedRange(plan, 'pressure')).toBeNull();
});
