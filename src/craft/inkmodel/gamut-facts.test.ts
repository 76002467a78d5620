import { expect, test } from 'vitest';
import { labFromSrgb, type Triple } from '#craft/colour';
import { gamutFacts } from './gamut-facts.js';
import { makeInverse } from './inverse.js';
import type { InkModel } from './types.js';

/** A device that does what sRGB says, with chroma times `dim`. */
function exactSrgb(dim: number): InkModel {
  const of = (rgb: Triple): Triple => {
    const [l, a, b] = labFromSrgb(rgb);
    return [l, dim * a, dim * b];
  };
  return {
    predict: (rgb: readonly Triple[]) =>
      rgb.map((one) => ({ lab: of(one), sdLab: [0, 0, 0] as const, expectedDeltaE00: 0 })),
    predictLab: (rgb: Float64Array) => {
      const lab = new Float64Array(rgb.length);
      for (let i = 0; i < rgb.length; i += 3) lab.set(of([rgb[i]!, rgb[i + 1]!, rgb[i + 2]!]), i);
      return lab;
    },
  } as Partial<InkModel> as InkModel;
}

test('a device that is sRGB: the published volume, white, black, and all of sRGB reached', () => {
  const facts = gamutFacts(makeInverse(exactSrgb(1)));
  // B. Lindbloom, “RGB Working Space Information”: Lab gamut volume of sRGB 832 870 (value from memory).
  expect(Math.abs(facts.volumeLab / 832_870 - 1)).toBeLessThan(0.01);
  expect(facts.srgbShare).toBeGreaterThan(0.98);
  facts.whiteLab.forEach((v, j) => {
    expect(v).toBeCloseTo([100, 0, 0][j]!, 1);
  });
  expect(facts.blackLab[0]).toBeCloseTo(0, 3);
});

test('with chroma at 70 %, the volume is 49 % (two of three axes), and so is the share of sRGB', () => {
  const facts = gamutFacts(makeInverse(exactSrgb(0.7)));
  expect(facts.volumeLab / 832_870).toBeCloseTo(0.49, 2);
  expect(Math.abs(facts.srgbShare - 0.49)).toBeLessThan(0.02);
});
