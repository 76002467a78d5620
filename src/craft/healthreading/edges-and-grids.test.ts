import { describe, expect, it } from 'vitest';
import { createRandom, normalCdf } from '#craft/numerics';
import type { SampledPicture } from '#craft/patchreading';
import type { PlaneMap } from '#craft/reading';
import type { HealthGrid, HealthSlant } from '#craft/testsheet';
import { readGrid } from './read-grid.js';
import { readSlant } from './read-slant.js';

/** 16 bits, linear: nothing but what is drawn. */
const most = 65535;
const identity = Float32Array.from({ length: most + 1 }, (_, i) => i / most);

/** A picture of a field given in millimetres, at `perMm`, its origin at the picture's. */
function pictureOf(
  sideMm: number,
  perMm: number,
  light: (x: number, y: number) => readonly [number, number, number],
): { picture: SampledPicture; map: PlaneMap } {
  const side = Math.round(sideMm * perMm);
  const { normal } = createRandom(11);
  const data = new Uint16Array(3 * side * side);
  for (let i = 0; i < side * side; i += 1) {
    light(((i % side) + 0.5) / perMm, (Math.floor(i / side) + 0.5) / perMm).forEach((v, c) => {
      data[3 * i + c] = Math.round(most * Math.min(1, Math.max(0, v + 0.003 * normal())));
    });
  }
  return {
    picture: { width: side, height: side, data, toLinear: [identity, identity, identity] },
    map: [perMm, 0, 0, 0, perMm, 0, 0, 0, 1],
  };
}

const slant: HealthSlant = {
  ink: 'magenta',
  deviceRgb: [255, 0, 255],
  corners: [
    { xMm: 2.9, yMm: 2.9 },
    { xMm: 11.8, yMm: 3.7 },
    { xMm: 12.6, yMm: 12.6 },
    { xMm: 3.7, yMm: 11.8 },
  ],
  clearMm: 1.4,
};

/** How much of the ink is at a place: the square's edges each a Gaussian's integral, σ of upright and of level ones. */
function inkAt(x: number, y: number, sigmaUpright: number, sigmaLevel: number): number {
  return slant.corners.reduce((share, a, i) => {
    const b = slant.corners[(i + 1) % 4]!;
    const length = Math.hypot(b.xMm - a.xMm, b.yMm - a.yMm);
    const inward = ((b.xMm - a.xMm) * (y - a.yMm) - (b.yMm - a.yMm) * (x - a.xMm)) / length;
    return share * normalCdf(inward / (i % 2 === 1 ? sigmaUpright : sigmaLevel));
  }, 1);
}

describe('slanted edges against the analytic Gaussian', () => {
  it.each([
    [600, 0.06, 0.05],
    [600, 0.11, 0.07],
    [300, 0.11, 0.09],
  ])('at %d ppi, σ %d and %d mm, in the channel of the ink alone', (ppi, upright, level) => {
    const { picture, map } = pictureOf(15.5, ppi / 25.4, (x, y) => {
      const ink = inkAt(x, y, upright, level);
      // The other channels hold another picture, which must not be looked at.
      return [0.5, 0.85 - 0.75 * ink, 0.3 + 0.3 * ink];
    });
    const seen = readSlant(picture, map, slant);
    if (!seen.isMeasured) throw new Error(seen.because);
    // 10 to 90 % of a Gaussian's integral: 2 · 1.2816 σ.
    expect(Math.abs(seen.acrossUm! / (2563.1 * upright) - 1)).toBeLessThan(0.03);
    expect(Math.abs(seen.alongUm! / (2563.1 * level) - 1)).toBeLessThan(0.03);
    // exp(−2π²σ²f²) = ½ at f = √(ln 2 / 2)/(πσ).
    const half = (sigma: number): number => Math.sqrt(Math.LN2 / 2) / (Math.PI * sigma);
    expect(Math.abs(seen.mtf50PerMm! / ((half(upright) + half(level)) / 2) - 1)).toBeLessThan(0.03);
  });

  it('where there is none, says so', () => {
    const { picture, map } = pictureOf(15.5, 300 / 25.4, () => [0.8, 0.8, 0.8]);
    expect(readSlant(picture, map, slant).isMeasured).toBe(false);
  });
});

describe('grids against analytic gratings', () => {
  const grid: HealthGrid = {
    repeats: 'across',
    periodMm: (8 * 25.4) / 360,
    rect: { xMm: 1, yMm: 1, widthMm: 6.2, heightMm: 6.2 },
  };
  it.each([600, 300])('a sinusoid’s period and amplitude at %d ppi', (ppi) => {
    const period = 1.012 * grid.periodMm;
    const { picture, map } = pictureOf(8.2, ppi / 25.4, (x) => {
      const v = 0.5 + 0.2 * Math.cos((2 * Math.PI * (x - 1)) / period);
      return [v, v, v];
    });
    const seen = readGrid(picture, map, grid, 0.9, 0.1);
    if (!seen.isMeasured) throw new Error(seen.because);
    expect(Math.abs(seen.seenPeriodMm / period - 1)).toBeLessThan(0.001);
    // Bilinear sampling takes a little of what has few pixels a period.
    const kept = ppi === 600 ? 0.98 : 0.92;
    const full = 0.2 / ((2 / Math.PI) * 0.8);
    expect(seen.modulation / full).toBeGreaterThan(kept);
    expect(seen.modulation / full).toBeLessThan(1.01);
  });

  it('too coarse a picture is said to be so', () => {
    const { picture, map } = pictureOf(8.2, 3, () => [0.5, 0.5, 0.5]);
    const seen = readGrid(picture, map, grid, 0.9, 0.1);
    expect(seen.isMeasured === false && seen.because).toMatch(/pixels apart/);
  });
});
