import { describe, expect, it } from 'vitest';
import { newSheetId, planFrame } from '#craft/sheet';
import { mapPoint, type PlaneMap } from './plane.js';
import { type FoundMarker, poseOfSheet } from './pose.js';
import { measureSize, trustedPpi } from './size.js';

const planned = planFrame({
  sheetId: newSheetId(Uint8Array.from([1, 1, 2, 3, 5, 8])),
  widthMm: 210,
  heightMm: 297,
  marginMm: 3,
  mirrorOnWriting: true,
});
if (!planned.frame) throw new Error('no room');
const { frame } = planned;

function seenThrough(map: PlaneMap): FoundMarker[] {
  return frame.markers.map(({ id, rect: { xMm: x, yMm: y, widthMm: w } }) => ({
    id,
    corners: [
      { x, y },
      { x: x + w, y },
      { x: x + w, y: y + w },
      { x, y: y + w },
    ].map((point) => mapPoint(map, point)),
  }));
}

/** 300 ppi, in pixels a millimetre. */
const perMm = 300 / 25.4;
const flat = (across: number, along: number, degrees: number, mirrored = false): PlaneMap => {
  const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const [a, b] = [(mirrored ? -1 : 1) * across * perMm, along * perMm];
  return [a * c, -b * s, 3000, a * s, b * c, 3000, 0, 0, 1];
};
const scanned = { taggedPpi: 300, fromCamera: false };

describe('the pose of a sheet', () => {
  it.each([0, 2.3, 90, 181, 268])('size and handedness hold when turned by %s°', (degrees) => {
    for (const mirrored of [false, true]) {
      const pose = poseOfSheet(frame, seenThrough(flat(0.97, 1.01, degrees, mirrored)))!;
      expect(pose.seenMirrored).toBe(mirrored);
      const size = measureSize(pose, scanned);
      if (!size.known) throw new Error(size.why);
      expect(size.acrossPercent).toBeCloseTo(97, 6);
      expect(size.alongPercent).toBeCloseTo(101, 6);
      expect(size.acrossUncertainty).toBeLessThan(0.2);
    }
  });

  it('a look-alike in the artwork and a marker out of place are left out', () => {
    const markers = seenThrough(flat(1, 1, 5));
    const astray = {
      id: markers[2]!.id,
      corners: markers[2]!.corners.map(({ x, y }) => ({ x: x - 700, y: y - 300 })),
    };
    const withTwin = poseOfSheet(frame, [astray, ...markers])!;
    expect(withTwin.markersUsed).toHaveLength(4);
    expect(withTwin.rmsPixels).toBeLessThan(1e-6);
    const without = poseOfSheet(frame, [markers[0]!, markers[1]!, astray, markers[3]!])!;
    expect([...without.markersUsed].sort((a, b) => a - b)).toEqual([7, 11, 20]);
    expect(without.rmsPixels).toBeLessThan(1e-6);
  });

  it('three markers are enough for the size; one only for the handedness', () => {
    const markers = seenThrough(flat(0.98, 0.98, 1));
    expect(measureSize(poseOfSheet(frame, markers.slice(1))!, scanned)).toMatchObject({ known: true });
    const one = poseOfSheet(frame, markers.slice(0, 1))!;
    expect(one.seenMirrored).toBe(false);
    expect(measureSize(one, scanned)).toEqual({ known: false, why: 'too-few-marks' });
    expect(poseOfSheet(frame, [])).toBeNull();
  });

  it('a single band does not take ink spread for stretching', () => {
    const band = planFrame({
      sheetId: newSheetId(Uint8Array.from([1, 1, 2, 3, 5, 8])),
      widthMm: 210,
      heightMm: 297,
      marginMm: 3,
      mirrorOnWriting: true,
      variant: 'top-only',
    });
    if (!band.frame) throw new Error('no room');
    // Every edge 0.15 mm outward.
    const spread = band.frame.markers.map(({ id, rect: { xMm: x, yMm: y, widthMm: w } }) => ({
      id,
      corners: [
        { x: x - 0.15, y: y - 0.15 },
        { x: x + w + 0.15, y: y - 0.15 },
        { x: x + w + 0.15, y: y + w + 0.15 },
        { x: x - 0.15, y: y + w + 0.15 },
      ].map((point) => mapPoint(flat(1, 1, 3), point)),
    }));
    const size = measureSize(poseOfSheet(band.frame, spread)!, scanned);
    if (!size.known) throw new Error(size.why);
    expect(Math.abs(size.acrossPercent - 100)).toBeLessThan(0.02);
    expect(size.acrossUncertainty).toBeLessThan(0.3);
    // 0.3 mm on 6 mm.
    expect(size.alongPercent).toBeCloseTo(105, 1);
    expect(size.alongUncertainty).toBeGreaterThan(5);
  });

  it('perspective has no size, nor has a photo, nor a screen’s density', () => {
    const tilted = poseOfSheet(frame, seenThrough([11, 1, 100, -1, 12, 400, 3e-4, 2e-4, 1]))!;
    expect(tilted.rmsPixels).toBeLessThan(1e-6);
    expect(measureSize(tilted, scanned)).toEqual({ known: false, why: 'not-flat' });
    const pose = poseOfSheet(frame, seenThrough(flat(1, 1, 0)))!;
    expect(measureSize(pose, { taggedPpi: 300, fromCamera: true })).toEqual({ known: false, why: 'camera' });
    expect(measureSize(pose, { taggedPpi: null, fromCamera: false })).toEqual({
      known: false,
      why: 'no-density',
    });
    expect(measureSize(pose, { taggedPpi: 72, fromCamera: false })).toEqual({
      known: false,
      why: 'screen-density',
    });
    expect(
      [71, 72, 96, 1, 0, Number.NaN, 99999].map((taggedPpi) => trustedPpi({ taggedPpi, fromCamera: false })),
    ).toEqual(Array.from({ length: 7 }, () => null));
  });
});
