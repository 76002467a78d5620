import { expect, it } from 'vitest';
import type { PlatenCheck } from '#contract';
import { offsetWords } from './offset-words.js';

const check = (value: number, words: string) =>
  ({ offsetK: { value, low: value - 3, high: value + 3 }, sentences: [words] }) as unknown as PlatenCheck;

// A kelvin is 1.8 °F: −6.9 K are −12.4 °F, not the 13 that 7 °C would give.
it('says a platen’s offset in the person’s degrees, rounded once', () => {
  const one = check(-6.9, 'The platen is 7 °C cooler than it says: set 207 for 200.');
  expect(offsetWords(one, 'C')).toBe('The platen is 7 °C cooler than it says: set 207 for 200.');
  expect(offsetWords(one, 'F')).toBe('The platen is 12 °F cooler than it says: set 412 for 400.');
  const two = check(
    2.2,
    'The platen is 2 °C hotter than it says: set 198 for 200. But this instrument cannot tell better than ±3 °C, so it may be right as it is.',
  );
  expect(offsetWords(two, 'F')).toBe(
    'The platen is 4 °F hotter than it says: set 396 for 400. But this instrument cannot tell better than ±5 °F, so it may be right as it is.',
  );
  const none = check(0.1, 'The platen is as hot as it says, within 3 °C: set 200 for 200.');
  expect(offsetWords(none, 'F')).toBe('The platen is as hot as it says, within 5 °F: set 400 for 400.');
});
