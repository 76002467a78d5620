import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { developBlank, distanceInsideMm, type FlatOutline, outlinePolygon } from '#craft/blank';
import { asFreePlacement, effectivePpi, freeWidthAtScaleOneMm, placeArtwork } from './placing.js';
import type { ArtworkPlacement } from './plan.js';

const upright = { scale: 1, offsetXMm: 0, offsetYMm: 0, rotationDegrees: 0 };
const size = fc.double({ min: 20, max: 500, noNaN: true });
const outlines: fc.Arbitrary<FlatOutline> = fc.record({
  widthMm: size,
  heightMm: size,
  form: fc.constantFrom('rectangle' as const, 'ellipse' as const),
  cornerRadiusMm: fc.constant(0),
});
const pixels = fc
  .record({
    widthPixels: fc.integer({ min: 1, max: 20000 }),
    heightPixels: fc.integer({ min: 1, max: 20000 }),
  })
  .filter((p) => p.widthPixels / p.heightPixels < 50 && p.heightPixels / p.widthPixels < 50);
const offset = fc.double({ min: -300, max: 300, noNaN: true });
const rotation = fc.oneof(
  fc.double({ min: -360, max: 360, noNaN: true }),
  fc.constantFrom(0, 90, 180, 270, -90, 45),
);

/** Slack by which a point of the piece lies inside the artwork; a plain rotation matrix, written out anew. */
function insideArtworkMm(art: ArtworkPlacement, x: number, y: number): number {
  const t = (art.rotationDegrees * Math.PI) / 180;
  const [dx, dy] = [x - art.centreXMm, y - art.centreYMm];
  const u = dx * Math.cos(t) + dy * Math.sin(t);
  const v = -dx * Math.sin(t) + dy * Math.cos(t);
  return Math.min(art.widthMm / 2 - Math.abs(u), art.heightMm / 2 - Math.abs(v));
}

function corners(art: ArtworkPlacement): [number, number][] {
  const t = (art.rotationDegrees * Math.PI) / 180;
  return [
    [-1, -1],
    [1, -1],
    [1, 1],
    [-1, 1],
  ].map(([i, j]) => {
    const [u, v] = [(i! * art.widthMm) / 2, (j! * art.heightMm) / 2];
    return [
      art.centreXMm + u * Math.cos(t) - v * Math.sin(t),
      art.centreYMm + u * Math.sin(t) + v * Math.cos(t),
    ];
  });
}

describe('fill', () => {
  it('covers face and bleed at any rotation and offset, and is no larger than it must be', () => {
    fc.assert(
      fc.property(
        outlines,
        pixels,
        rotation,
        offset,
        offset,
        fc.double({ min: 0, max: 20, noNaN: true }),
        (outline, px, rotationDegrees, offsetXMm, offsetYMm, bleedMm) => {
          const choice = { mode: 'fill' as const, scale: 1, offsetXMm, offsetYMm, rotationDegrees };
          const art = placeArtwork(outline, px, choice, { bleedMm });
          const bled: FlatOutline = {
            ...outline,
            widthMm: outline.widthMm + 2 * bleedMm,
            heightMm: outline.heightMm + 2 * bleedMm,
          };
          const slack = outlinePolygon(bled, 200).map((p) => insideArtworkMm(art, p.xMm, p.yMm));
          expect(Math.min(...slack)).toBeGreaterThan(-1e-9);
          expect(art.widthMm / art.heightMm).toBeCloseTo(px.widthPixels / px.heightPixels, 9);

          const centred = placeArtwork(outline, px, { ...choice, offsetXMm: 0, offsetYMm: 0 }, { bleedMm });
          expect(centred.widthMm).toBe(art.widthMm);
          // Tight: seen from the centre, some edge of the outline touches (chords of 1/200 quarter: small play).
          const least = Math.min(
            ...outlinePolygon(bled, 200).map((p) => insideArtworkMm(centred, p.xMm, p.yMm)),
          );
          expect(least).toBeLessThan(1e-4 * Math.max(bled.widthMm, bled.heightMm));
        },
      ),
    );
  });

  it('moves as far as it covers: a 2:1 picture on a square slides along its length only', () => {
    const square: FlatOutline = { widthMm: 100, heightMm: 100, form: 'rectangle', cornerRadiusMm: 0 };
    const place = (offsetXMm: number, offsetYMm: number) =>
      placeArtwork(
        square,
        { widthPixels: 2000, heightPixels: 1000 },
        { ...upright, mode: 'fill', offsetXMm, offsetYMm },
        { bleedMm: 5 },
      );
    // 110 × 110 with bleed: artwork 220 × 110, so (220 − 110)/2 = 55 mm of play sideways, none up and down.
    expect(place(0, 0)).toMatchObject({ widthMm: 220, heightMm: 110 });
    expect(place(30, 9)).toMatchObject({ centreXMm: 30, centreYMm: 0 });
    expect(place(99, 0).centreXMm).toBe(55);
  });
});

describe('fit', () => {
  it('keeps every corner inside the face at any rotation and offset, touching it when centred', () => {
    fc.assert(
      fc.property(outlines, pixels, rotation, offset, offset, (outline, px, rotationDegrees, x, y) => {
        const choice = { mode: 'fit' as const, scale: 1, offsetXMm: x, offsetYMm: y, rotationDegrees };
        const art = placeArtwork(outline, px, choice, { bleedMm: 3 });
        const depths = corners(art).map(([cx, cy]) => distanceInsideMm(outline, cx, cy));
        expect(Math.min(...depths)).toBeGreaterThan(-1e-7);
        const centred = placeArtwork(outline, px, { ...choice, offsetXMm: 0, offsetYMm: 0 }, { bleedMm: 3 });
        const touching = corners(centred).map(([cx, cy]) => distanceInsideMm(outline, cx, cy));
        expect(Math.min(...touching)).toBeLessThan(1e-6);
      }),
    );
  });

  it('prints a picture drawn to the panel’s size at exactly that size, rounded corners or not', () => {
    const panel = developBlank({ kind: 'rectangle', widthMm: 203, heightMm: 254, cornerRadiusMm: 3 });
    const art = placeArtwork(
      panel,
      { widthPixels: 2030, heightPixels: 2540 },
      { ...upright, mode: 'fit' },
      { bleedMm: 3 },
    );
    expect(art.widthMm).toBeCloseTo(203, 12);
    expect(art.heightMm).toBeCloseTo(254, 12);
    // 2030 px over 203 mm = 10 px/mm = 254 ppi, since 1 in = 25.4 mm exactly.
    expect(effectivePpi({ widthPixels: 2030, heightPixels: 2540 }, art)).toBeCloseTo(254, 10);
  });

  it('inscribes a square in a circle: side d/√2', () => {
    const coaster: FlatOutline = { widthMm: 100, heightMm: 100, form: 'ellipse', cornerRadiusMm: 0 };
    for (const rotationDegrees of [0, 17, 45, 90]) {
      const art = placeArtwork(
        coaster,
        { widthPixels: 500, heightPixels: 500 },
        { ...upright, mode: 'fit', rotationDegrees },
        { bleedMm: 0 },
      );
      expect(art.widthMm).toBeCloseTo(100 / Math.SQRT2, 9);
    }
  });

  it('turns a landscape picture by a quarter to exactly the height of the face', () => {
    const face: FlatOutline = { widthMm: 50, heightMm: 80, form: 'rectangle', cornerRadiusMm: 0 };
    const art = placeArtwork(
      face,
      { widthPixels: 1600, heightPixels: 1000 },
      { ...upright, mode: 'fit', rotationDegrees: 90 },
      { bleedMm: 0 },
    );
    expect([art.widthMm, art.heightMm]).toEqual([80, 50]);
  });
});

describe('free', () => {
  it('keeps size when only rotation and offset change, and takes both as given', () => {
    fc.assert(
      fc.property(outlines, pixels, rotation, offset, offset, (outline, px, rotationDegrees, x, y) => {
        const still = placeArtwork(outline, px, { ...upright, mode: 'free', scale: 0.4 }, { bleedMm: 2 });
        const moved = placeArtwork(
          outline,
          px,
          { mode: 'free', scale: 0.4, offsetXMm: x, offsetYMm: y, rotationDegrees },
          { bleedMm: 9 },
        );
        expect(moved).toEqual({ ...still, centreXMm: x, centreYMm: y, rotationDegrees });
      }),
    );
  });

  it('reaches a wished width in millimetres through the scale', () => {
    const face: FlatOutline = { widthMm: 120, heightMm: 40, form: 'ellipse', cornerRadiusMm: 0 };
    const px = { widthPixels: 640, heightPixels: 480 };
    const scale = 33 / freeWidthAtScaleOneMm(face, px);
    const art = placeArtwork(face, px, { ...upright, mode: 'free', scale }, { bleedMm: 0 });
    expect(art.widthMm).toBeCloseTo(33, 12);
    expect(art.heightMm).toBeCloseTo(24.75, 12);
  });

  it('says any placing again as a free one', () => {
    fc.assert(
      fc.property(
        outlines,
        pixels,
        rotation,
        offset,
        fc.constantFrom('fill' as const, 'fit' as const, 'free' as const),
        (outline, px, rotationDegrees, x, mode) => {
          const art = placeArtwork(
            outline,
            px,
            { mode, scale: 0.7, offsetXMm: x, offsetYMm: -x / 2, rotationDegrees },
            { bleedMm: 3 },
          );
          const again = placeArtwork(outline, px, asFreePlacement(outline, px, art), { bleedMm: 0 });
          expect(again.widthMm).toBeCloseTo(art.widthMm, 9);
          expect(again.heightMm).toBeCloseTo(art.heightMm, 9);
          expect([again.centreXMm, again.centreYMm]).toEqual([art.centreXMm, art.centreYMm]);
        },
      ),
    );
  });
});
