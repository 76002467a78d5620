import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { frameOfCode, type PlannedFrame, planFrame, planFrames } from './frame.js';
import { frameVariants, largeFrameVariants, markerSizeMm } from './frame-variant.js';
import type { Mark, RectMm } from './plan.js';
import { readSheetCode, writeSheetCode } from './qr.js';
import { newSheetId } from './sheet-id.js';

const sheetId = newSheetId(Uint8Array.from([9, 8, 7, 6, 5, 4]));
const order = (widthMm: number, heightMm: number, marginMm = 3) => ({
  sheetId,
  widthMm,
  heightMm,
  marginMm,
  mirrorOnWriting: true,
  caption: 'Mug wrap · Club pennant',
});
const all = [...frameVariants, ...largeFrameVariants];
const sizes = fc.record({
  widthMm: fc.double({ min: 100, max: 610, noNaN: true }),
  heightMm: fc.double({ min: 100, max: 5000, noNaN: true }),
  marginMm: fc.double({ min: 0, max: 8, noNaN: true }),
  mirrorOnWriting: fc.boolean(),
});

const overlap = (a: RectMm, b: RectMm): boolean =>
  a.xMm < b.xMm + b.widthMm - 1e-6 &&
  b.xMm < a.xMm + a.widthMm - 1e-6 &&
  a.yMm < b.yMm + b.heightMm - 1e-6 &&
  b.yMm < a.yMm + a.heightMm - 1e-6;
const grown = ({ xMm, yMm, widthMm, heightMm }: RectMm, by: number): RectMm => ({
  xMm: xMm - by,
  yMm: yMm - by,
  widthMm: widthMm + 2 * by,
  heightMm: heightMm + 2 * by,
});
/** A text mark's box: from capitals' top to a little below the baseline. */
function boxOf(mark: Mark): RectMm {
  if (mark.kind !== 'text') return mark.rect;
  const { xMm, yMm, capHeightMm: cap, maxWidthMm } = mark;
  return { xMm, yMm: yMm - cap, widthMm: maxWidthMm, heightMm: 1.15 * cap };
}

describe('the frame of marks', () => {
  it('stays in the printable area, out of the live area, and keeps white round markers and code', () => {
    fc.assert(
      fc.property(sizes, (size) => {
        for (const planned of planFrames({ sheetId, caption: 'Tile', variants: all, ...size })) {
          expect(planned.marks.some(({ role }) => role === 'reads-backwards')).toBe(true);
          const printable = {
            xMm: size.marginMm - 0.01,
            yMm: size.marginMm - 0.01,
            widthMm: size.widthMm - 2 * size.marginMm + 0.02,
            heightMm: size.heightMm - 2 * size.marginMm + 0.02,
          };
          const marker = markerSizeMm(planned.variant, size.widthMm, size.heightMm);
          const [first] = planned.frame.markers;
          expect(first!.rect.widthMm).toBe(marker);
          for (const mark of planned.marks) {
            const box = boxOf(mark);
            expect(overlap(box, planned.liveArea)).toBe(false);
            expect(box.xMm).toBeGreaterThanOrEqual(printable.xMm);
            expect(box.yMm).toBeGreaterThanOrEqual(printable.yMm);
            expect(box.xMm + box.widthMm).toBeLessThanOrEqual(printable.xMm + printable.widthMm);
            expect(box.yMm + box.heightMm).toBeLessThanOrEqual(printable.yMm + printable.heightMm);
          }
          // One marker cell of white round each marker; four modules round the code (ISO/IEC 18004).
          const kept = [
            ...planned.frame.markers.map(({ rect }) => grown(rect, marker / 6)),
            grown(planned.frame.qr, (4 * planned.frame.qr.widthMm) / 25),
          ];
          const solids = [...planned.frame.markers.map(({ rect }) => rect), planned.frame.qr];
          kept.forEach((zone, i) => {
            for (const [j, mark] of [...solids, ...planned.marks.slice(5).map(boxOf)].entries()) {
              if (i !== j) expect(overlap(zone, mark)).toBe(false);
            }
            expect(overlap(zone, planned.liveArea)).toBe(false);
          });
        }
      }),
      { numRuns: 200 },
    );
  });

  it('is found again from what the code says, whole', () => {
    fc.assert(
      fc.property(sizes, (size) => {
        for (const planned of planFrames({ sheetId, variants: all, ...size })) {
          const said = writeSheetCode({ sheetId, ...size, variant: planned.variant });
          expect(said).toHaveLength(37);
          const code = readSheetCode(said);
          expect(code?.sheetId).toBe(sheetId);
          expect(code?.mirrorOnWriting).toBe(size.mirrorOnWriting);
          expect(frameOfCode(code!)).toEqual(planned.frame);
        }
      }),
      { numRuns: 100 },
    );
  });

  it('leaves room for a mug wrap, a tile and a photo panel on the papers they are pressed with', () => {
    const fits = (planned: PlannedFrame, w: number, h: number): boolean =>
      planned.liveArea.widthMm >= w && planned.liveArea.heightMm >= h;
    const any = (paper: [number, number, number], w: number, h: number): boolean =>
      planFrames(order(...paper)).some((planned) => fits(planned, w, h) || fits(planned, h, w));
    expect(any([210, 297, 3], 236, 101)).toBe(true);
    expect(any([210, 297, 5], 158, 158)).toBe(true);
    expect(any([297, 420, 5], 206, 306)).toBe(true);
    // Nearly the whole of an A4: only a single band leaves it room.
    expect(any([210, 297, 3], 204, 280)).toBe(true);
    expect(planFrames(order(210, 297)).find((planned) => fits(planned, 204, 280))?.variant).toBe('top-only');
  });

  it('offers every arrangement from 100 × 150 mm to 610 × 5000 mm', () => {
    for (const size of [order(100, 150, 5), order(610, 5000, 5), order(210, 297), order(330.2, 482.6)]) {
      expect(planFrames(size).map(({ variant }) => variant)).toEqual(frameVariants);
    }
  });

  it('has large marks only where asked for: code modules of 0.8 mm at least', () => {
    for (const size of [order(210, 297), order(148, 210), order(610, 5000, 5)]) {
      const large = planFrames({ ...size, variants: largeFrameVariants });
      expect(large.map(({ variant }) => variant)).toEqual(largeFrameVariants);
      for (const { frame } of large) expect(frame.qr.widthMm / 25).toBeGreaterThanOrEqual(0.8);
    }
    expect(planFrames(order(210, 297))[0]!.frame.qr.widthMm).toBe(10);
  });

  it('says so when there is no room', () => {
    const none = planFrame(order(50, 40));
    expect(none.frame).toBeNull();
    expect(none).toHaveProperty('reason', expect.stringContaining('50 × 40 mm'));
    expect(planFrame(order(Number.NaN, 100)).frame).toBeNull();
  });

  it('refuses an id that is none', () => {
    expect(() => planFrame({ ...order(210, 297), sheetId: 'AAAAAAAAAB' })).toThrow(/is not a sheet id/);
  });

  it('tells who reads it on the paper what to turn off or on', () => {
    const words = (mirrorOnWriting: boolean): string =>
      (planFrame({ ...order(297, 420), mirrorOnWriting }) as PlannedFrame).marks
        .flatMap((mark) => (mark.kind === 'text' ? [mark.text] : []))
        .join(' ');
    expect(words(true)).toContain('Must read backwards on paper');
    expect(words(true)).toContain('turn mirroring off in the driver');
    expect(words(false)).toContain('turn mirroring on in the driver');
    expect(words(true)).toContain('Club pennant');
  });
});
