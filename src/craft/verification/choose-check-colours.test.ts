import { expect, it } from 'vitest';
import { deltaE76, lchFromLab, type Triple } from '#craft/colour';
import { chooseCheckColours } from './choose-check-colours.js';

/** A made-up reach: dark end at L* 14, chroma up to 45 in the middle of the lightnesses. */
const blackL = 14;
const reaches = ([l, a, b]: Triple): boolean =>
  l >= blackL && l <= 100 && Math.hypot(a, b) <= 45 * Math.sin((Math.PI * (l - blackL)) / (100.01 - blackL));

it.each([30, 36, 60, 90])(
  '%d colours: neutrals from end to end, all over the reach, a few beyond it',
  (count) => {
    const chosen = chooseCheckColours({ count, seed: 3, reaches });
    expect(chosen).toHaveLength(count);
    const of = (kind: string) => chosen.filter((one) => one.kind === kind).map((one) => one.lab);
    const neutrals = of('neutral');
    expect(neutrals.length).toBeGreaterThanOrEqual(8);
    expect(neutrals.every(([, a, b]) => a === 0 && b === 0)).toBe(true);
    expect(Math.min(...neutrals.map(([l]) => l))).toBeLessThan(blackL + 2);
    expect(Math.max(...neutrals.map(([l]) => l))).toBeGreaterThan(95);
    expect(of('limited').length).toBeGreaterThanOrEqual(2);
    expect(of('limited').some(reaches)).toBe(false);
    const colours = of('colour');
    expect(colours.every(reaches)).toBe(true);
    // All round: every eighth of the circle of hues has one.
    const eighths = new Set(colours.map((lab) => Math.floor(lchFromLab(lab)[2] / 45)));
    expect(eighths.size).toBe(8);
    // Something skin-like and something deep blue among them.
    expect(colours.some((lab) => near(lchFromLab(lab)[2], 55, 25) && lab[0] > 50)).toBe(true);
    expect(colours.some((lab) => near(lchFromLab(lab)[2], 285, 25) && lab[0] < 45)).toBe(true);
    // None twice.
    colours.forEach((one, i) => {
      for (const other of colours.slice(i + 1)) expect(deltaE76(one, other)).toBeGreaterThan(3);
    });
  },
);

it('is the same for the same seed, and another for another', () => {
  const of = (seed: number) => chooseCheckColours({ count: 36, seed, reaches });
  expect(of(1)).toEqual(of(1));
  expect(of(1)).not.toEqual(of(2));
});

const near = (hue: number, centre: number, within: number): boolean =>
  Math.abs(((hue - centre + 540) % 360) - 180) <= within;
