import { expect, it } from 'vitest';
import { createRandom } from './random.js';

it('is MT19937: the 10 000th number of seed 5489 is 4123659995 (ISO/IEC 14882 [rand.predef])', () => {
  const random = createRandom(5489);
  let last = 0;
  for (let i = 0; i < 10_000; i += 1) last = random.bits();
  expect(last).toBe(4_123_659_995);
});

it('has the moments of a normal distribution', () => {
  const random = createRandom(7);
  const n = 100_000;
  const values = Array.from({ length: n }, () => random.normal());
  const moment = (k: number): number => values.reduce((sum, v) => sum + v ** k, 0) / n;
  // Standard errors: 1/√n, √2/√n, √15/√n, √96/√n; four of them each.
  expect(Math.abs(moment(1))).toBeLessThan(4 / Math.sqrt(n));
  expect(Math.abs(moment(2) - 1)).toBeLessThan((4 * Math.SQRT2) / Math.sqrt(n));
  expect(Math.abs(moment(3))).toBeLessThan((4 * Math.sqrt(15)) / Math.sqrt(n));
  expect(Math.abs(moment(4) - 3)).toBeLessThan((4 * Math.sqrt(96)) / Math.sqrt(n));
});

it('shuffles without losing anything, the same way for the same seed', () => {
  const once = createRandom(3).shuffle(Array.from({ length: 50 }, (_, i) => i));
  expect(createRandom(3).shuffle(Array.from({ length: 50 }, (_, i) => i))).toEqual(once);
  expect(createRandom(4).shuffle(Array.from({ length: 50 }, (_, i) => i))).not.toEqual(once);
  expect(once.toSorted((a, b) => a - b)).toEqual(Array.from({ length: 50 }, (_, i) => i));
});
