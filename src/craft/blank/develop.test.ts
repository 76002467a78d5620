import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Problem } from '#craft/problem';
import { developBlank } from './develop.js';
import type { BlankShape } from './types.js';

const mug = (diameterMm: number, heightMm: number, gapMm: number): BlankShape => ({
  kind: 'cylinder',
  diameterMm,
  heightMm,
  gapMm,
  handle: true,
});

/** Length of a polyline lying on the paper's middle layer: numeric integration of the wrap, not the formula. */
function wrapLength(radiusMm: number, fromRadians: number, toRadians: number, pieces = 200_000): number {
  let length = 0;
  let [x, y] = [radiusMm * Math.cos(fromRadians), radiusMm * Math.sin(fromRadians)];
  for (let i = 1; i <= pieces; i += 1) {
    const angle = fromRadians + ((toRadians - fromRadians) * i) / pieces;
    const [nx, ny] = [radiusMm * Math.cos(angle), radiusMm * Math.sin(angle)];
    length += Math.hypot(nx - x, ny - y);
    [x, y] = [nx, ny];
  }
  return length;
}

describe('developBlank', () => {
  it('unrolls a mug to the length of paper that goes round it', () => {
    const outline = developBlank(mug(82, 95, 0), { paperThicknessMm: 0.12 });
    expect(outline.widthMm).toBeCloseTo(wrapLength(41.06, 0, 2 * Math.PI), 6);
    expect(outline).toMatchObject({ heightMm: 95, form: 'rectangle', cornerRadiusMm: 0 });
  });

  // A frustum (Gieck, Technical Formulae; exact sector development) tends to the cylinder as its diameters meet:
  // s = √(h² + ((D−d)/2)²), R = sD/(D−d), θ = 2π(D−d)/(2s); outer arc θR → πD.
  it('is the limit of the frustum’s development', () => {
    const [D, h] = [90, 150];
    for (const narrower of [1e-2, 1e-4]) {
      const s = Math.hypot(h, narrower / 2);
      const outerArc = ((Math.PI * narrower) / s) * ((s * D) / narrower);
      expect(developBlank(mug(D, h, 0), { paperThicknessMm: 0 }).widthMm).toBeCloseTo(outerArc, 9);
    }
  });

  it('takes the gap off the wrap, whatever the mug', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 40, max: 300, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (d, gap) => {
          const whole = developBlank(mug(d, 100, 0)).widthMm;
          expect(whole - developBlank(mug(d, 100, gap)).widthMm).toBeCloseTo(gap, 9);
        },
      ),
    );
  });

  it('leaves flat faces as they are', () => {
    const shape: BlankShape = { kind: 'rectangle', widthMm: 203, heightMm: 254, cornerRadiusMm: 3 };
    expect(developBlank(shape)).toEqual({
      widthMm: 203,
      heightMm: 254,
      form: 'rectangle',
      cornerRadiusMm: 3,
    });
    expect(developBlank({ kind: 'ellipse', widthMm: 100, heightMm: 80 })).toMatchObject({
      widthMm: 100,
      heightMm: 80,
      form: 'ellipse',
    });
  });

  it.each<[string, BlankShape, string]>([
    ['no width', { kind: 'rectangle', widthMm: 0, heightMm: 50, cornerRadiusMm: 0 }, 'shape.widthMm'],
    ['NaN', { kind: 'ellipse', widthMm: Number.NaN, heightMm: 50 }, 'shape.widthMm'],
    ['endless', { kind: 'ellipse', widthMm: 50, heightMm: Number.POSITIVE_INFINITY }, 'shape.heightMm'],
    [
      'corners too round',
      { kind: 'rectangle', widthMm: 50, heightMm: 80, cornerRadiusMm: 26 },
      'shape.cornerRadiusMm',
    ],
    ['all gap', mug(82, 95, 256), 'shape.gapMm'],
    ['gap below nothing', mug(82, 95, -1), 'shape.gapMm'],
  ])('refuses %s', (_name, shape, where) => {
    expect(() => developBlank(shape)).toThrow(Problem);
    expect(() => developBlank(shape)).toThrow(expect.objectContaining({ code: 'blank.invalid', where }));
  });
});
