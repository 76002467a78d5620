import { formatHex as culoriHex } from 'culori';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { formatHex } from './hex.js';

it('writes bytes as culori does', () => {
  const byte = fc.integer({ min: 0, max: 255 });
  fc.assert(
    fc.property(fc.tuple(byte, byte, byte), ([r, g, b]) => {
      expect(formatHex([r, g, b])).toBe(culoriHex({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 }));
    }),
    { seed: 1 },
  );
});

it('rounds, and clips what is beyond', () => expect(formatHex([-3, 300, 26.5])).toBe('#00ff1b'));
