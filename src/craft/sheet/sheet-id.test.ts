import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isSheetId, newSheetId, parseSheetId, spokenSheetId } from './sheet-id.js';

const bytes = fc.uint8Array({ minLength: 6, maxLength: 6 });
const alphabet = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

describe('sheet ids', () => {
  it('are ten characters of Crockford’s alphabet and pass their own check', () => {
    fc.assert(
      fc.property(bytes, (random) => {
        const id = newSheetId(random);
        expect(id).toMatch(/^[0-9A-HJKMNP-TV-Z]{10}$/);
        expect(isSheetId(id)).toBe(true);
      }),
    );
  });

  it('keep 45 bits: other bits, another id', () => {
    fc.assert(
      fc.property(bytes, fc.integer({ min: 0, max: 44 }), (random, bit) => {
        const other = random.slice();
        // The six bytes are one big-endian number whose lowest 45 bits are kept.
        other[5 - (bit >> 3)]! ^= 1 << (bit & 7);
        expect(newSheetId(other)).not.toBe(newSheetId(random));
      }),
    );
  });

  it('notice every single wrong character and every swap of two', () => {
    for (const random of [
      [1, 2, 3, 4, 5, 6],
      [255, 254, 9, 77, 140, 33],
    ]) {
      const id = newSheetId(Uint8Array.from(random));
      for (let i = 0; i < id.length; i += 1) {
        for (const letter of alphabet) {
          if (letter !== id[i]) expect(isSheetId(id.slice(0, i) + letter + id.slice(i + 1))).toBe(false);
        }
        for (let j = i + 1; j < id.length; j += 1) {
          if (id[i] === id[j]) continue;
          const swapped = [...id];
          [swapped[i], swapped[j]] = [id[j]!, id[i]!];
          expect(isSheetId(swapped.join(''))).toBe(false);
        }
      }
    }
  });

  it('are read as people type them', () => {
    const id = newSheetId(Uint8Array.from([0, 0, 0, 33, 1, 0]));
    const typed = spokenSheetId(id).toLowerCase().replace(/0/g, 'o').replace(/1/g, 'l').replace(' ', '-');
    expect(parseSheetId(typed)).toBe(id);
    expect(parseSheetId('not a sheet')).toBeNull();
    expect(parseSheetId('')).toBeNull();
  });

  it('want six bytes', () => {
    expect(() => newSheetId(new Uint8Array(5))).toThrow(/six random bytes/);
  });
});
