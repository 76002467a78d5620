import { describe, expect, it } from 'vitest';
import { besideWhite, castWords, leaning } from './cast.js';

describe('a cast in words', () => {
  // CIELAB's axes (CIE 015:2018, 8.2.1): +a* reddish, −a* greenish, +b* yellowish, −b* bluish.
  it.each([
    [[50, 5, 0], 'pink'],
    [[50, 0, 5], 'yellow'],
    [[50, -5, 0], 'green'],
    [[50, 0, -5], 'blue'],
    [[50, 4, 4], 'orange'],
  ] as const)('%o leans to %s', (lab, name) => expect(leaning(lab)).toBe(name));
  it('says nothing of what is not seen', () => {
    expect(castWords([50, 0.5, 0.5])).toBe('neutral');
    expect(castWords([50, 0, -2])).toBe('a hint of blue');
    expect(castWords([50, 0, -8])).toBe('clearly blue');
  });
  it('takes the ground for white', () => {
    const white = [93, 1.5, -4] as const;
    const [l, a, b] = besideWhite(white, white);
    expect(l).toBeCloseTo(100, 9);
    expect(Math.hypot(a, b)).toBeLessThan(1e-9);
  });
});
