import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import { askedByHex, askedByLab, questionOf, shownOnScreen } from './use-asked.js';

describe('a colour asked for', () => {
  it('as hex has the Lab that culori gives it (D50), and is asked as hex', () => {
    const { l, a, b } = converter('lab')('#b5432e')!;
    const asked = askedByHex('#B5432E');
    expect(asked.lab[0]).toBeCloseTo(l, 0);
    expect(asked.lab[1]).toBeCloseTo(a, 0);
    expect(asked.lab[2]).toBeCloseTo(b, 0);
    expect(questionOf(asked)).toEqual({ hex: '#b5432e' });
  });
  it('as Lab is asked as Lab, beside the white it was given for', () => {
    const asked = askedByLab([50, 0, 0], 'absolute');
    // L* 50 is #777777 (culori).
    expect(asked.hex).toBe('#777777');
    expect(questionOf(asked)).toEqual({ lab: [50, 0, 0], white: 'absolute' });
  });
  it('says when a screen cannot show it', () => {
    expect(shownOnScreen([54.3, 80.8, 69.9])).toBe(true);
    expect(shownOnScreen([50, 120, 20])).toBe(false);
  });
});
