import { describe, expect, it } from 'vitest';
import { monotoneCubic } from './monotone-cubic.js';

describe('monotone cubic', () => {
  // Data “RPN 15A” of Fritsch & Carlson 1980, table 2 (from memory): steep in the middle, flat at its ends.
  const x = [7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20];
  const y = [0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.94374, 0.998636, 0.999919, 0.999994];

  it('goes through the points and never falls, where an ordinary cubic would overshoot 1', () => {
    const f = monotoneCubic(x, y);
    x.forEach((at, i) => {
      expect(f(at)).toBeCloseTo(y[i]!, 12);
    });
    let before = 0;
    for (let at = 7.99; at <= 20; at += 0.01) {
      expect(f(at)).toBeGreaterThanOrEqual(before - 1e-12);
      expect(f(at)).toBeLessThanOrEqual(1);
      before = f(at);
    }
  });

  it('gives straight lines as they are, also through two points', () => {
    expect(monotoneCubic([0, 1], [0, 2])(0.3)).toBeCloseTo(0.6, 12);
    expect(monotoneCubic([0, 0.2, 1], [1, 1.4, 3])(0.7)).toBeCloseTo(2.4, 12);
  });
});
