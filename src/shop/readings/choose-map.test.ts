import { expect, test } from 'vitest';
import { beyondSentences } from './choose-map.js';

test('colours lie beyond a calibration or a card only where there was one', () => {
  expect(beyondSentences(199, 'D')).toEqual([]);
  expect(beyondSentences(0, 'B')).toEqual([]);
  expect(beyondSentences(1, 'B')[0]).toMatch(
    /^One of the colours lies beyond what the reader was calibrated/,
  );
  expect(beyondSentences(7, 'C')[0]).toMatch(/^7 of the colours lie beyond the colours of the card/);
});
