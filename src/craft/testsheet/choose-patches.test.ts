import { describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import { choosePatches } from './choose-patches.js';

/** Greatest distance from any of a fine lattice's points to the nearest patch. */
function largestGap(patches: readonly { rgb: readonly number[] }[]): number {
  let worst = 0;
  for (let i = 0; i < 9 ** 3; i += 1) {
    const p = [Math.floor(i / 81) / 8, (Math.floor(i / 9) % 9) / 8, (i % 9) / 8];
    let nearest = 9;
    for (const { rgb } of patches) {
      nearest = Math.min(nearest, Math.hypot(rgb[0]! - p[0]!, rgb[1]! - p[1]!, rgb[2]! - p[2]!));
    }
    worst = Math.max(worst, nearest);
  }
  return worst;
}

describe('patches of a chart', () => {
  it.each([20, 30, 50, 100, 300, 900])(
    '%d patches: as many as asked, on 8-bit codes, none twice but repeats',
    (count) => {
      const patches = choosePatches(count, 1);
      expect(patches).toHaveLength(count);
      for (const { rgb } of patches) {
        for (const v of rgb) expect(Math.abs(v * 255 - Math.round(v * 255))).toBeLessThan(1e-9);
      }
      const firsts = patches.filter((patch) => patch.purpose !== 'again').map((patch) => patch.rgb.join());
      expect(new Set(firsts).size).toBe(firsts.length);
    },
  );

  it('has the eight corners, rising greys, and repeats', () => {
    const patches = choosePatches(200, 1);
    const keys = patches.map((patch) => patch.rgb.join());
    for (let k = 0; k < 8; k += 1) expect(keys).toContain([k & 1, (k >> 1) & 1, (k >> 2) & 1].join());
    const greys = patches.filter(({ purpose }) => purpose === 'neutral');
    expect(greys.length).toBeGreaterThanOrEqual(12);
    for (const { rgb } of greys) expect(rgb[0] === rgb[1] && rgb[1] === rgb[2]).toBe(true);
    expect(patches.filter(({ purpose }) => purpose === 'again')).toHaveLength(12);
    for (const purpose of ['dark', 'skin', 'deep-blue'] as const) {
      expect(patches.filter((patch) => patch.purpose === purpose).length).toBeGreaterThanOrEqual(4);
    }
  });

  it('leaves no larger gaps than a regular grid of as many patches', () => {
    // A grid of 4³ = 64 has gaps of (1/3)·√3/2 in the cube's cells; charts also spend patches on greys.
    expect(largestGap(choosePatches(64, 1))).toBeLessThan((1 / 3) * (Math.sqrt(3) / 2) * 1.35);
    expect(largestGap(choosePatches(512, 1))).toBeLessThan((1 / 7) * (Math.sqrt(3) / 2) * 1.5);
  });

  it('gives the same patches for the same seed, others for another', () => {
    expect(choosePatches(60, 5)).toEqual(choosePatches(60, 5));
    expect(choosePatches(60, 6)).not.toEqual(choosePatches(60, 5));
  });

  it.each([0, 19, 30.5, Number.NaN, 2001])('refuses %d patches in a sentence', (count) => {
    try {
      choosePatches(count, 1);
      expect.unreachable();
    } catch (error) {
      expect(isProblem(error) && error.code).toBe('request.invalid');
    }
  });
});
