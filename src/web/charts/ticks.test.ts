import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { apart, roundTicks } from './ticks.js';

describe('ticks', () => {
  it('are round and lie within', () => {
    expect(roundTicks(0, 3.2, 4)).toEqual([0, 1, 2, 3]);
    expect(roundTicks(-6, 6, 6)).toEqual([-6, -4, -2, 0, 2, 4, 6]);
    expect(roundTicks(0, 0.5, 5)).toEqual([0, 0.1, 0.2, 0.3, 0.4, 0.5]);
    expect(roundTicks(2, 2, 5)).toEqual([2]);
  });
  it('are never more than asked for', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e4, noNaN: true }),
        fc.integer({ min: 1, max: 12 }),
        (min, span, most) => {
          const ticks = roundTicks(min, min + span, most);
          expect(ticks.length).toBeLessThanOrEqual(most + 1);
          for (const tick of ticks) {
            expect(tick).toBeGreaterThanOrEqual(min - span * 1e-6);
            expect(tick).toBeLessThanOrEqual(min + span * (1 + 1e-6));
          }
        },
      ),
    );
  });
});

describe('names at line ends', () => {
  it('keep their order and do not lie on one another', () => {
    expect(apart([10, 11, 50], 14, 0, 100)).toEqual([10, 24, 50]);
    expect(apart([95, 99], 14, 0, 100)).toEqual([86, 100]);
  });
});
