import Color from 'colorjs.io';
import { differenceCiede2000 } from 'culori';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { deltaE00, deltaE76 } from './difference.js';
import { ciede2000Pairs } from './refdata/ciede2000-pairs.js';

const lab = fc.tuple(
  fc.double({ min: 0, max: 100, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
  fc.double({ min: -120, max: 120, noNaN: true }),
);

describe('CIEDE2000', () => {
  it('has the whole published table', () => expect(ciede2000Pairs).toHaveLength(34));

  // The table is printed to four decimals, so half a unit of the fourth is the bound.
  it.each(ciede2000Pairs)('Sharma, Wu & Dalal 2005: %j %j → %d', (one, two, published) => {
    expect(Math.abs(deltaE00(one, two) - published)).toBeLessThanOrEqual(0.5e-4 + 1e-9);
    expect(Math.abs(deltaE00(two, one) - published)).toBeLessThanOrEqual(0.5e-4 + 1e-9);
  });

  it('agrees with colorjs.io and culori on random pairs', () => {
    const culori = differenceCiede2000();
    fc.assert(
      fc.property(lab, lab, (one, two) => {
        const ours = deltaE00(one, two);
        const colorjs = new Color('lab', one).deltaE(new Color('lab', two), '2000');
        // culori converts 'lab' to 'lab65' first, so the triple is given to it as 'lab65' as it stands.
        const other = culori(
          { mode: 'lab65', l: one[0], a: one[1], b: one[2] },
          { mode: 'lab65', l: two[0], a: two[1], b: two[2] },
        );
        expect(ours).toBeCloseTo(colorjs, 8);
        expect(ours).toBeCloseTo(other, 8);
      }),
      { seed: 20050130, numRuns: 400 },
    );
  });

  it('is nought for equal colours, and symmetric', () => {
    fc.assert(
      fc.property(lab, lab, (one, two) => {
        expect(deltaE00(one, one)).toBe(0);
        expect(deltaE00(one, two)).toBeCloseTo(deltaE00(two, one), 9);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

it('CIE 1976 difference is the distance', () => {
  expect(deltaE76([50, 3, 4], [50, 0, 0])).toBe(5);
});
