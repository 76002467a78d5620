import Color from 'colorjs.io';
import { describe, expect, it } from 'vitest';
import type { Triple } from '#craft/colour';
import { oklabHue } from './choose-palette.js';
import { choosePalette } from './index.js';
import { hueFamilies } from './palette-words.js';

/** colorjs.io says what sRGB holds, what Oklab hue a name has, and how far colours lie apart. */
const asColour = (lab: Triple): Color => new Color('lab', lab as [number, number, number]);
const inSrgb = (lab: Triple): boolean => asColour(lab).to('srgb').inGamut('srgb', { epsilon: 1e-6 });
/** About what dye on a coated blank reaches: darker than 18 not, duller the darker and lighter it gets (common practice). */
const inDull = ([l, a, b]: Triple): boolean =>
  l >= 18 && l <= 97 && Math.hypot(a, b) <= 62 * Math.sin((Math.PI * (l - 8)) / 92);

describe('a palette over what is reached', () => {
  it.each([
    ['sRGB', inSrgb],
    ['a dull printer', inDull],
  ])('%s: all reached, no two alike in colour or name, greys and skins among them', (_, reaches) => {
    for (const count of [8, 40, 96, 200]) {
      const palette = choosePalette(reaches, count);
      expect(palette.length).toBeLessThanOrEqual(count);
      expect(palette.length).toBeGreaterThan(0.6 * Math.min(count, 140));
      for (const { lab } of palette) expect(reaches(lab)).toBe(true);
      expect(new Set(palette.map(({ name }) => name)).size).toBe(palette.length);
      const colours = palette.map(({ lab }) => asColour(lab));
      let least = 100;
      colours.forEach((one, i) => {
        for (const other of colours.slice(i + 1)) least = Math.min(least, one.deltaE(other, '2000'));
      });
      expect(least).toBeGreaterThan(2.45);
      expect(palette.some(({ name }) => name === 'black')).toBe(true);
      for (const { name } of palette) expect(name).toMatch(/^[a-z]+( [a-z]+| \d+)?$/);
      if (count >= 40) expect(palette.some(({ name }) => name.startsWith('skin'))).toBe(true);
    }
  });

  it('calls hues what CSS Color 4 calls them', () => {
    for (const [css, ours] of [
      ['red', 'red'],
      ['coral', 'coral'],
      ['orange', 'orange'],
      ['yellow', 'yellow'],
      ['green', 'green'],
      ['teal', 'teal'],
      ['skyblue', 'sky'],
      ['blue', 'blue'],
      ['purple', 'purple'],
      ['hotpink', 'pink'],
    ] as const) {
      const colour = new Color(css);
      const hue = Number(colour.to('oklch').coords[2]);
      const apart = (degrees: number): number => Math.abs(((degrees - hue + 540) % 360) - 180);
      const nearest = hueFamilies.reduce((a, b) => (apart(b.hueDegrees) < apart(a.hueDegrees) ? b : a));
      expect(nearest.name).toBe(ours);
      const lab = [...colour.to('lab').coords].map(Number) as unknown as Triple;
      expect(apart(oklabHue(lab))).toBeLessThan(0.2);
    }
  });

  it('the brightest of a hue is about the strongest there is, and shades go from light to dark', () => {
    const palette = choosePalette(inSrgb, 140);
    // The strongest red of sRGB by colorjs.io is #f00 with Oklab chroma 0.2577.
    const red = asColour(palette.find(({ name }) => name === 'bright red')!.lab).to('oklch');
    expect(Number(red.coords[1])).toBeGreaterThan(0.24);
    const lightness = (name: string): number =>
      palette.find((colour) => colour.name === name)?.lab[0] ?? Number.NaN;
    for (const { name } of hueFamilies.filter(({ rank }) => rank < 4)) {
      expect(lightness(`light ${name}`)).toBeGreaterThan(lightness(`deep ${name}`));
      expect(lightness(`deep ${name}`)).toBeGreaterThan(lightness(`dark ${name}`));
    }
    const greys = palette.filter(({ name }) => name.startsWith('grey') || name === 'black');
    for (const { lab } of greys) expect(Math.hypot(lab[1], lab[2])).toBe(0);
  });

  it('of very little is little, of nothing nothing', () => {
    expect(choosePalette(() => false)).toEqual([]);
    const grey = choosePalette((lab) => Math.hypot(lab[1], lab[2]) < 0.5 && lab[0] > 30 && lab[0] < 95);
    expect(grey.length).toBeGreaterThan(5);
  });
});
