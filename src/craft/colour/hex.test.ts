import fc from 'fast-check';
import { expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import { formatHex, parseHex } from './hex.js';

it('reads six and three digits (CSS Color 4, 5.2)', () => {
  expect(parseHex('#1a2b3c')).toEqual([26, 43, 60]);
  expect(parseHex('FFF')).toEqual([255, 255, 255]);
});

it('writes what it reads', () => {
  const byte = fc.integer({ min: 0, max: 255 });
  fc.assert(
    fc.property(fc.tuple(byte, byte, byte), (rgb) => {
      expect(parseHex(formatHex(rgb))).toEqual(rgb);
    }),
    { seed: 1 },
  );
});

it.each(['', '#12', 'red', '#12345g', '#1234567'])('refuses %j in a sentence', (text) => {
  try {
    parseHex(text);
    expect.unreachable();
  } catch (error) {
    expect(isProblem(error) && error.code === 'request.invalid' && error.remedy.length > 0).toBe(true);
  }
});
