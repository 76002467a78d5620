import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { distanceInsideMm, grownOutline, insideOutline, outlinePolygon } from './edge.js';
import type { FlatOutline } from './types.js';

const size = fc.double({ min: 10, max: 600, noNaN: true });
const outlines: fc.Arbitrary<FlatOutline> = fc.oneof(
  fc.record({
    widthMm: size,
    heightMm: size,
    form: fc.constant('ellipse' as const),
    cornerRadiusMm: fc.constant(0),
  }),
  fc.tuple(size, size, fc.double({ min: 0, max: 1, noNaN: true })).map(
    ([widthMm, heightMm, share]): FlatOutline => ({
      widthMm,
      heightMm,
      form: 'rectangle',
      cornerRadiusMm: (share * Math.min(widthMm, heightMm)) / 2,
    }),
  ),
);

/** Nearest distance to a closed polygon, by brute force over its sides: another road to the same number. */
function polygonDistance(points: readonly { xMm: number; yMm: number }[], x: number, y: number): number {
  let best = Number.POSITIVE_INFINITY;
  points.forEach((p, i) => {
    const q = points[(i + 1) % points.length]!;
    const [dx, dy] = [q.xMm - p.xMm, q.yMm - p.yMm];
    const t = Math.min(
      1,
      Math.max(0, ((x - p.xMm) * dx + (y - p.yMm) * dy) / Math.max(dx * dx + dy * dy, 1e-300)),
    );
    best = Math.min(best, Math.hypot(x - p.xMm - t * dx, y - p.yMm - t * dy));
  });
  return best;
}

describe('distance to the edge', () => {
  it('agrees with brute force over a fine polygon', () => {
    fc.assert(
      fc.property(
        outlines,
        fc.double({ min: -0.7, max: 0.7, noNaN: true }),
        fc.double({ min: -0.7, max: 0.7, noNaN: true }),
        (outline, u, v) => {
          const [x, y] = [u * outline.widthMm, v * outline.heightMm];
          const steps = 1000;
          // A chord of an arc of radius up to a²/b strays from it by at most its sagitta.
          const [a, b] = [
            Math.max(outline.widthMm, outline.heightMm) / 2,
            Math.min(outline.widthMm, outline.heightMm) / 2,
          ];
          const sagitta = ((a * Math.PI) / 2 / steps) ** 2 / (8 * ((b * b) / a)) + 1e-9;
          const expected = polygonDistance(outlinePolygon(outline, steps), x, y);
          expect(Math.abs(Math.abs(distanceInsideMm(outline, x, y)) - expected)).toBeLessThan(sagitta * 2);
        },
      ),
      { numRuns: 60 },
    );
  });

  it('has the sign of the implicit equation', () => {
    fc.assert(
      fc.property(size, size, fc.double({ min: 0, max: 6.28, noNaN: true }), (w, h, angle) => {
        const outline: FlatOutline = { widthMm: w, heightMm: h, form: 'ellipse', cornerRadiusMm: 0 };
        const at = (k: number): boolean =>
          insideOutline(outline, ((k * w) / 2) * Math.cos(angle), ((k * h) / 2) * Math.sin(angle));
        expect(at(0.999)).toBe(true);
        expect(at(1.001)).toBe(false);
      }),
    );
  });

  it('encloses the area that the formulae give', () => {
    // Shoelace sum against πab and wh − (4 − π)r².
    const area = (outline: FlatOutline): number => {
      const points = outlinePolygon(outline, 4000);
      return (
        points.reduce((sum, p, i) => {
          const q = points[(i + 1) % points.length]!;
          return sum + p.xMm * q.yMm - q.xMm * p.yMm;
        }, 0) / 2
      );
    };
    expect(area({ widthMm: 100, heightMm: 60, form: 'ellipse', cornerRadiusMm: 0 })).toBeCloseTo(
      Math.PI * 50 * 30,
      2,
    );
    expect(area({ widthMm: 203, heightMm: 254, form: 'rectangle', cornerRadiusMm: 10 })).toBeCloseTo(
      203 * 254 - (4 - Math.PI) * 100,
      3,
    );
    expect(area({ widthMm: 203, heightMm: 254, form: 'rectangle', cornerRadiusMm: 0 })).toBe(203 * 254);
  });

  it('grows by the bleed on every side', () => {
    const grown = grownOutline({ widthMm: 95, heightMm: 95, form: 'rectangle', cornerRadiusMm: 5 }, 2);
    expect(grown).toEqual({ widthMm: 99, heightMm: 99, form: 'rectangle', cornerRadiusMm: 7 });
    // On a rounded rectangle growing is exact: the old edge lies bleed deep everywhere.
    for (const p of outlinePolygon({ widthMm: 95, heightMm: 95, form: 'rectangle', cornerRadiusMm: 5 })) {
      expect(distanceInsideMm(grown, p.xMm, p.yMm)).toBeCloseTo(2, 9);
    }
  });
});
