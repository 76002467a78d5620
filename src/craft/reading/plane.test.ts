import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  areaFactor,
  chain,
  fitAffine,
  fitHomography,
  mapPoint,
  type PlaneMap,
  type PointPair,
} from './plane.js';

const corners = [
  { x: 3, y: 3 },
  { x: 207, y: 3 },
  { x: 207, y: 294 },
  { x: 3, y: 294 },
  { x: 100, y: 40 },
];
const tilts = fc.record({
  turn: fc.double({ min: -3.2, max: 3.2, noNaN: true }),
  scale: fc.double({ min: 0.5, max: 30, noNaN: true }),
  px: fc.double({ min: -0.001, max: 0.001, noNaN: true }),
  py: fc.double({ min: -0.001, max: 0.001, noNaN: true }),
  mirrored: fc.boolean(),
});

function truth({
  turn,
  scale,
  px,
  py,
  mirrored,
}: {
  turn: number;
  scale: number;
  px: number;
  py: number;
  mirrored: boolean;
}): PlaneMap {
  const sign = mirrored ? -1 : 1;
  const [c, s] = [scale * Math.cos(turn), scale * Math.sin(turn)];
  // First tilt (nothing of the sheet behind the lens), then turn, scale and mirror.
  return chain([sign * c, -s, 400, sign * s, c, 700, 0, 0, 1], [1, 0, 0, 0, 1, 0, px, py, 1]);
}

describe('plane maps', () => {
  it('a homography is found again from its points, and its handedness', () => {
    fc.assert(
      fc.property(tilts, (tilt) => {
        const map = truth(tilt);
        const pairs: PointPair[] = corners.map((from) => ({ from, to: mapPoint(map, from) }));
        const found = fitHomography(pairs)!;
        for (const from of [...corners, { x: 150, y: 200 }]) {
          const [a, b] = [mapPoint(found, from), mapPoint(map, from)];
          expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeLessThan(1e-4);
          expect(areaFactor(found, from) < 0).toBe(tilt.mirrored);
        }
      }),
    );
  });

  it('an affine map is found again', () => {
    fc.assert(
      fc.property(tilts, (tilt) => {
        const map = truth({ ...tilt, px: 0, py: 0 });
        const found = fitAffine(corners.map((from) => ({ from, to: mapPoint(map, from) })))!;
        found.forEach((value, i) => {
          expect(value).toBeCloseTo(map[i]!, 6);
        });
      }),
    );
  });

  it('points on a line give nothing', () => {
    const line = [0, 1, 2, 3].map((t) => ({ from: { x: t, y: 2 * t }, to: { x: t, y: t } }));
    expect(fitHomography(line)).toBeNull();
    expect(fitAffine(line)).toBeNull();
    expect(fitHomography(line.slice(0, 3))).toBeNull();
  });
});
