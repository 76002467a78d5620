import { expect, test } from 'vitest';
import { labFromSrgb } from '#craft/colour';
import { gamutMesh } from './gamut.js';
import { meshVolume } from './gamut-facts.js';

test('the volume of sRGB in CIELAB (D50) is the published one', () => {
  const mesh = gamutMesh((rgb) => {
    const lab = new Float64Array(rgb.length);
    for (let i = 0; i < rgb.length; i += 3) lab.set(labFromSrgb([rgb[i]!, rgb[i + 1]!, rgb[i + 2]!]), i);
    return lab;
  }, 48);
  // B. Lindbloom, “RGB Working Space Information”: Lab gamut volume of sRGB 832 870 (value from memory).
  expect(Math.abs(meshVolume(mesh) / 832_870 - 1)).toBeLessThan(0.005);
});
