import { describe, expect, it } from 'vitest';
import type { WindowFieldFacts } from '#contract';
import { contourAreas, onAxis } from './contours.js';

// A cone over uneven axes: its level lines are circles in the axes' own units, by plane geometry.
const axis = (low: number, high: number, n: number, bend: number) =>
  Array.from({ length: n }, (_, i) => low + (high - low) * (i / (n - 1)) ** bend);
const seconds = axis(20, 120, 41, 1.4);
const celsius = axis(180, 210, 31, 1);
const cone = (s: number, c: number) => 1 - Math.hypot((s - 70) / 50, (c - 195) / 15);
const field: WindowFieldFacts = {
  dwellSeconds: seconds,
  platenC: celsius,
  within: celsius.flatMap((c) => seconds.map((s) => Math.max(0, cone(s, c)))),
  densityShare: [],
  blackHue: [],
  edgeShare: [],
};
const pointsOf = (path: string) =>
  path
    .split(/[MLZ]/)
    .filter((one) => one !== '')
    .map((one) => one.split(' ').map(Number) as [number, number]);

describe('contours of the window', () => {
  it('lie where the field has their value', () => {
    const areas = contourAreas(field, (s, c) => [s, c], [0.3, 0.6]);
    for (const { level, path } of areas) {
      const points = pointsOf(path);
      expect(points.length).toBeGreaterThan(20);
      for (const [s, c] of points) expect(Math.abs(cone(s, c) - level)).toBeLessThan(0.02);
    }
  });
  it('are nothing where the level is never reached, and nothing of a line', () => {
    expect(contourAreas(field, (s, c) => [s, c], [1.5])[0]?.path).toBe('');
    expect(contourAreas({ ...field, platenC: [200] }, (s, c) => [s, c])).toEqual([]);
  });
  it('axes are read between their nodes and held at their ends', () => {
    expect(onAxis([10, 20, 40], 1.5)).toBe(30);
    expect(onAxis([10, 20, 40], -1)).toBe(10);
    expect(onAxis([10, 20, 40], 9)).toBe(40);
  });
});
