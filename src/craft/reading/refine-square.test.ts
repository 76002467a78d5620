import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type GreyPicture, refineSquare } from './refine-square.js';

/** A turned dark square on light ground by area coverage (20 × 20 samples a pixel, so true to 1/40 pixel), grown by `spread` on all sides. */
function drawSquare(cx: number, cy: number, side: number, angle: number, spread = 0): GreyPicture {
  const width = 90;
  const height = 80;
  const data = new Uint8Array(width * height);
  const half = side / 2 + spread;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  for (let y = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1) {
      let covered = 0;
      for (let k = 0; k < 400; k += 1) {
        const dx = x + ((k % 20) + 0.5) / 20 - cx;
        const dy = y + (Math.floor(k / 20) + 0.5) / 20 - cy;
        if (Math.abs(dx * c + dy * s) < half && Math.abs(dy * c - dx * s) < half) covered += 1;
      }
      data[y * width + x] = Math.round(230 - (190 * covered) / 400);
    }
  }
  return { width, height, data };
}

function cornersOf(cx: number, cy: number, side: number, angle: number): { x: number; y: number }[] {
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([u, v]) => ({
    x: cx + (side / 2) * (u! * c - v! * s),
    y: cy + (side / 2) * (u! * s + v! * c),
  }));
}

describe('sub-pixel corners', () => {
  it('are true to a few hundredths of a pixel, starting more than a pixel off', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 40, max: 50, noNaN: true }),
        fc.double({ min: 36, max: 44, noNaN: true }),
        fc.double({ min: 24, max: 44, noNaN: true }),
        fc.double({ min: -0.6, max: 0.6, noNaN: true }),
        (cx, cy, side, angle) => {
          const truth = cornersOf(cx, cy, side, angle);
          const rough = truth.map(({ x, y }, i) => ({
            x: x + (i % 2 ? 1.2 : -0.9),
            y: y + (i < 2 ? 0.8 : -1.1),
          }));
          const found = refineSquare(drawSquare(cx, cy, side, angle), rough)!;
          found.forEach(({ x, y }, i) => {
            expect(Math.hypot(x - truth[i]!.x, y - truth[i]!.y)).toBeLessThan(0.06);
          });
        },
      ),
      { numRuns: 20 },
    );
  });

  it('keep the centre where ink spread makes the square larger', () => {
    const found = refineSquare(drawSquare(45.3, 40.7, 36, 0.2, 1.5), cornersOf(45.3, 40.7, 36, 0.2))!;
    const x = found.reduce((sum, point) => sum + point.x, 0) / 4;
    const y = found.reduce((sum, point) => sum + point.y, 0) / 4;
    expect(Math.hypot(x - 45.3, y - 40.7)).toBeLessThan(0.03);
    expect(Math.hypot(found[0]!.x - found[1]!.x, found[0]!.y - found[1]!.y)).toBeCloseTo(39, 1);
  });

  it('are refused where there is no edge', () => {
    const even: GreyPicture = { width: 90, height: 80, data: new Uint8Array(90 * 80).fill(180) };
    expect(refineSquare(even, cornersOf(45, 40, 36, 0))).toBeNull();
  });
});
