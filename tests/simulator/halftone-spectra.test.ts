import { expect, test } from 'vitest';
import { deltaE00, labFromXyz, type Triple3, xyzFromLab } from '#craft/colour';
import { halftoneWithSpectra } from './halftone-spectra.js';
import { halftoneCmyk, heldOut } from './virtual-printer.js';

test('spectra of the halftone printer give the colours that Little CMS says, beside their ground', async () => {
  const [own, cmyk] = [await halftoneWithSpectra(), await halftoneCmyk()];
  const rgb = heldOut(400, 5);
  const white = xyzFromLab(own.print([[1, 1, 1]])[0]!);
  const d50 = xyzFromLab([100, 0, 0]);
  const cmykLab = cmyk.print(rgb);
  const off = own.print(rgb).map((lab, i) => {
    const xyz = xyzFromLab(lab).map((v, j) => (v / white[j]!) * d50[j]!) as Triple3;
    return deltaE00(labFromXyz(xyz), cmykLab[i]!);
  });
  const most = own.reflect(rgb).flat();
  console.info('max off', Math.max(...off), 'reflectance', Math.min(...most), Math.max(...most));
  expect(Math.max(...off)).toBeLessThan(0.01);
  expect(Math.max(...most)).toBeLessThan(1);
});
