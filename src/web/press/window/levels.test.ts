import fc from 'fast-check';
import { expect, it } from 'vitest';
import { levelsOf } from './levels.js';

it('lays what would overlap on further levels, and no more than are needed', () => {
  expect(levelsOf([10, 100, 12, 40], 24, 3)).toEqual([0, 0, 1, 0]);
  expect(levelsOf([5, 5, 5, 5], 24, 3)).toEqual([0, 1, 2, 2]);
});
it('never lets two of a level overlap while levels are left', () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: 0, max: 500 }), { maxLength: 16 }), (places) => {
      const levels = levelsOf(places, 24, 99);
      places.forEach((one, i) => {
        places.forEach((two, j) => {
          if (i < j && levels[i] === levels[j]) expect(Math.abs(one - two)).toBeGreaterThanOrEqual(24);
        });
      });
    }),
  );
});
