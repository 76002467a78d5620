import { converter } from 'culori';
import { describe, expect, it } from 'vitest';
import { srgb8FromLab } from '#craft/colour';
import { cutAtLightness, type Surface, within } from './mesh.js';
import { reachByHue } from './reach-by-hue.js';

/** sRGB's surface, its corners' Lab (D50) worked out by culori. */
function srgbSurface(steps: number): Surface {
  const toLab = converter('lab');
  const lab: number[] = [];
  const srgb: number[] = [];
  const triangles: number[] = [];
  for (let axis = 0; axis < 3; axis += 1) {
    for (const side of [0, 1]) {
      const first = lab.length / 3;
      for (let i = 0; i <= steps; i += 1) {
        for (let j = 0; j <= steps; j += 1) {
          const p = [0, 0, 0];
          p[axis] = side;
          p[(axis + 1) % 3] = i / steps;
          p[(axis + 2) % 3] = j / steps;
          const { l, a, b } = toLab({ mode: 'rgb', r: p[0]!, g: p[1]!, b: p[2]! });
          lab.push(l, a, b);
          srgb.push(...srgb8FromLab([l, a, b]));
        }
      }
      for (let i = 0; i < steps; i += 1) {
        for (let j = 0; j < steps; j += 1) {
          const at = first + i * (steps + 1) + j;
          triangles.push(at, at + steps + 1, at + steps + 2, at, at + steps + 2, at + 1);
        }
      }
    }
  }
  return { lab, srgb, triangles };
}

const surface = srgbSurface(24);

describe('a slice of equal lightness', () => {
  it('holds what culori says is displayable, and nothing else', () => {
    const toRgb = converter('rgb');
    const cuts = cutAtLightness(surface, 55);
    let wrong = 0;
    let tried = 0;
    for (let b = -119.5; b < 120; b += 5) {
      const stretches = within(cuts, b);
      for (let a = -119.5; a < 120; a += 5) {
        const { r, g, b: blue } = toRgb({ mode: 'lab', l: 55, a, b });
        const least = Math.min(r, g, blue, 1 - r, 1 - g, 1 - blue);
        // So near the surface that the triangles' flatness decides.
        if (Math.abs(least) < 0.02) continue;
        tried += 1;
        if (stretches.some(([from, to]) => a >= from && a <= to) !== least > 0) wrong += 1;
      }
    }
    expect(tried).toBeGreaterThan(1500);
    expect(wrong).toBe(0);
  });
  it('is empty beyond black and white', () => {
    expect(cutAtLightness(surface, 101)).toEqual([]);
    expect(cutAtLightness(surface, -1)).toEqual([]);
  });
});

describe('reach by hue', () => {
  it('finds sRGB’s red and yellow where culori has them', () => {
    const lch = converter('lch');
    const red = lch({ mode: 'rgb', r: 1, g: 0, b: 0 });
    const row = reachByHue(surface, surface).find(({ name }) => name === 'Red')!;
    // 40° is 0.9° off the corner (culori: 40.9°).
    expect(red.h).toBeCloseTo(40.86, 1);
    expect(row.chroma).toBeGreaterThan(red.c - 3);
    expect(row.chroma).toBeLessThanOrEqual(red.c + 0.1);
    expect(row.otherChroma).toBe(row.chroma);
    const yellow = lch({ mode: 'rgb', r: 1, g: 1, b: 0 });
    const other = reachByHue(surface, surface).find(({ name }) => name === 'Yellow')!;
    expect(Math.abs(other.chroma - yellow.c)).toBeLessThan(4);
    expect(Math.abs(other.lightness - yellow.l)).toBeLessThan(3);
  });
});
