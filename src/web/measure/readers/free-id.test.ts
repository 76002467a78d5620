import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { idSchema } from '#contract';
import { freeId } from './free-id.js';

describe('ids from names', () => {
  it('are the name in plain letters', () => {
    expect(freeId('Flatbed on the shelf', [])).toBe('flatbed-on-the-shelf');
    expect(freeId('Flachbett №2 (Büro)', [])).toBe('flachbett-no2-buro');
  });
  it('step aside for those there are', () => {
    expect(freeId('Flatbed', [{ id: 'flatbed' }, { id: 'flatbed-2' }])).toBe('flatbed-3');
  });
  it('are always in the contract’s form, and free', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme' }), (name) => {
        const first = freeId(name, []);
        expect(idSchema.parse(first)).toBe(first);
        expect(freeId(name, [{ id: first }])).not.toBe(first);
      }),
    );
  });
});
