import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { developBlank, type FlatOutline } from '#craft/blank';
import { layOutSheet, type SheetLayout } from './layout.js';
import type { SheetOrder } from './order.js';
import type { Mark, RectMm } from './plan.js';
import { newSheetId } from './sheet-id.js';

const sheetId = newSheetId(Uint8Array.from([1, 2, 3, 4, 5, 6]));
const a4 = { widthMm: 210, heightMm: 297, marginMm: 3 };
const a3 = { widthMm: 297, heightMm: 420, marginMm: 3 };
const roll = { widthMm: 610, heightMm: 5000, marginMm: 5, roll: true };
const square = (sideMm: number): FlatOutline => ({
  widthMm: sideMm,
  heightMm: sideMm,
  form: 'rectangle',
  cornerRadiusMm: 0,
});
const order = (over: Partial<SheetOrder>): SheetOrder => ({
  sheetId,
  paper: a4,
  outline: square(95),
  bleedMm: 2,
  artworkPixels: { widthPixels: 3000, heightPixels: 2000 },
  placement: { mode: 'fill', scale: 1, offsetXMm: 0, offsetYMm: 0, rotationDegrees: 0 },
  copies: 1,
  mirrorOnWriting: true,
  ...over,
});

// Overlap and containment written anew, with the play of rounding only.
const play = 1e-3;
const apart = (a: RectMm, b: RectMm): boolean =>
  a.xMm + a.widthMm <= b.xMm + play ||
  b.xMm + b.widthMm <= a.xMm + play ||
  a.yMm + a.heightMm <= b.yMm + play ||
  b.yMm + b.heightMm <= a.yMm + play;
const within = (outer: RectMm, inner: RectMm): boolean =>
  inner.xMm >= outer.xMm - play &&
  inner.yMm >= outer.yMm - play &&
  inner.xMm + inner.widthMm <= outer.xMm + outer.widthMm + play &&
  inner.yMm + inner.heightMm <= outer.yMm + outer.heightMm + play;
const inset = (widthMm: number, heightMm: number, by: number): RectMm => ({
  xMm: by,
  yMm: by,
  widthMm: widthMm - 2 * by,
  heightMm: heightMm - 2 * by,
});
/** Box of a mark; text reaches from its baseline up by its capitals (descenders: about a third of that). */
const boxOf = (mark: Mark): RectMm =>
  mark.kind === 'text'
    ? { xMm: mark.xMm, yMm: mark.yMm - mark.capHeightMm, widthMm: 0, heightMm: mark.capHeightMm }
    : mark.rect;

function demandSound({ plan, piecesPlaced }: SheetLayout, marginMm: number): void {
  expect(plan.pieces.length).toBe(piecesPlaced);
  const printable = inset(plan.widthMm, plan.heightMm, marginMm);
  plan.pieces.forEach((piece, i) => {
    expect(within(printable, piece.bleed)).toBe(true);
    expect(within(piece.bleed, piece.trim)).toBe(true);
    for (const other of plan.pieces.slice(i + 1)) expect(apart(piece.bleed, other.bleed)).toBe(true);
    for (const mark of plan.marks) expect(apart(piece.bleed, boxOf(mark))).toBe(true);
  });
  for (const mark of plan.marks) expect(within(printable, boxOf(mark))).toBe(true);
  const drawn = plan.marks.filter((mark) => mark.kind !== 'text');
  drawn.forEach((mark, i) => {
    // Trim lines of neighbours may meet end to end or lie on one another: the same ink in the same place.
    for (const other of drawn.slice(i + 1)) {
      if (mark.role === 'trim' && other.role === 'trim') continue;
      expect(apart(boxOf(mark), boxOf(other))).toBe(true);
    }
  });
}

describe('layOutSheet', () => {
  it('keeps pieces apart, marks outside all bleeds, everything on printable paper, for any order', () => {
    const outline = fc.record({
      widthMm: fc.double({ min: 30, max: 400, noNaN: true }),
      heightMm: fc.double({ min: 30, max: 400, noNaN: true }),
      form: fc.constantFrom('rectangle' as const, 'ellipse' as const),
      cornerRadiusMm: fc.constant(0),
    });
    fc.assert(
      fc.property(
        outline,
        fc.constantFrom(a4, a3, roll, { widthMm: 100, heightMm: 150, marginMm: 2 }),
        fc.double({ min: 0, max: 10, noNaN: true }),
        fc.integer({ min: 1, max: 30 }),
        fc.boolean(),
        (face, paper, bleedMm, copies, mirrorOnWriting) => {
          const layout = layOutSheet(order({ outline: face, paper, bleedMm, copies, mirrorOnWriting }));
          const { plan } = layout;
          expect(plan.mirrorOnWriting).toBe(mirrorOnWriting);
          expect(layout.piecesPlaced).toBeLessThanOrEqual(copies);
          if (layout.piecesPlaced === 0) {
            // Shown hanging over, and truly too large: neither way round inside the margins.
            expect(plan.pieces.length).toBe(1);
            expect(plan.marks).toEqual([]);
            const [w, h] = [face.widthMm + 2 * bleedMm, face.heightMm + 2 * bleedMm];
            const [pw, ph] = [paper.widthMm - 2 * paper.marginMm, paper.heightMm - 2 * paper.marginMm];
            expect((w <= pw && h <= ph) || (h <= pw && w <= ph)).toBe(false);
            return;
          }
          demandSound(layout, paper.marginMm);
          if (plan.frame) {
            const { markers, qr, routeStrip } = plan.frame;
            for (const rect of [qr, ...markers.map((m) => m.rect), ...routeStrip.map((p) => p.rect)]) {
              expect(plan.pieces.every((piece) => apart(piece.bleed, rect))).toBe(true);
            }
          }
          // Each piece's trim is the blank's own size, turned or not.
          const expected = layout.turned ? [face.heightMm, face.widthMm] : [face.widthMm, face.heightMm];
          for (const { trim } of plan.pieces) {
            expect(trim.widthMm).toBeCloseTo(expected[0]!, 9);
            expect(trim.heightMm).toBeCloseTo(expected[1]!, 9);
          }
        },
      ),
      { numRuns: 150 },
    );
  });

  it('turns a mug’s wrap on A4, and the artwork with it', () => {
    const mug = developBlank({ kind: 'cylinder', diameterMm: 82, heightMm: 95, gapMm: 28, handle: true });
    const layout = layOutSheet(
      order({
        outline: mug,
        placement: { mode: 'free', scale: 0.5, offsetXMm: 40, offsetYMm: 10, rotationDegrees: 20 },
      }),
    );
    expect(layout.turned).toBe(true);
    expect(layout.plan.frame).not.toBeNull();
    const piece = layout.plan.pieces[0]!;
    expect(piece.turnedDegrees).toBe(90);
    // As it reads: 40 mm right, 10 mm down. A quarter turn clockwise carries right to down and down to left.
    expect(layout.artwork).toMatchObject({ centreXMm: 40, centreYMm: 10, rotationDegrees: 20 });
    expect(piece.artwork).toMatchObject({ centreXMm: -10, centreYMm: 40, rotationDegrees: 110 });
    expect(piece.artwork.widthMm).toBe(layout.artwork.widthMm);
  });

  it('leaves pieces upright where both ways do', () => {
    const layout = layOutSheet(order({ outline: { ...square(80), heightMm: 100 }, copies: 2 }));
    expect(layout.turned).toBe(false);
    expect(layout.plan.pieces.every((piece) => piece.turnedDegrees === undefined)).toBe(true);
  });

  it('centres the pieces in the room that the marks leave', () => {
    const { plan } = layOutSheet(order({ paper: a3, copies: 4, outline: square(100) }));
    // Two by two; the same room at left and right.
    const left = Math.min(...plan.pieces.map((p) => p.bleed.xMm));
    const right = Math.max(...plan.pieces.map((p) => p.bleed.xMm + p.bleed.widthMm));
    expect(left).toBeCloseTo(297 - right, 9);
    expect(new Set(plan.pieces.map((p) => p.bleed.xMm.toFixed(6))).size).toBe(2);
  });

  it('counts what an A3 holds: as many as simple division says', () => {
    // 104 mm bleed boxes 2 mm apart, no marks counted: across (291 + 2)/106 = 2, along at most (414 + 2)/106 = 3.
    const layout = layOutSheet(order({ paper: a3, copies: 50, outline: square(100) }));
    expect(layout.piecesPlaced).toBe(6);
    expect(layout.piecesAsked).toBe(50);
    expect(layout.paperThatWouldDo).toBe('a 610 mm roll');
  });

  it('names paper for a slate that A4 cannot hold', () => {
    const slate: FlatOutline = { widthMm: 200, heightMm: 300, form: 'rectangle', cornerRadiusMm: 2 };
    const layout = layOutSheet(order({ outline: slate, bleedMm: 5, copies: 3 }));
    expect(layout.piecesPlaced).toBe(0);
    expect(layout.plan.frame).toBeNull();
    expect(layout.paperThatWouldDo).toBe('A3 (297 × 420 mm)');
  });

  it('goes without marks only where they find no room, and says which paper has it', () => {
    const layout = layOutSheet(
      order({ outline: { ...square(204), heightMm: 291 }, bleedMm: 0, placement: order({}).placement }),
    );
    expect(layout.piecesPlaced).toBe(1);
    expect(layout.plan.frame).toBeNull();
    expect(layout.paperThatWouldDo).toBe('A3 (297 × 420 mm)');
    demandSound(layout, 3);
  });

  it('draws off a roll only what the pieces need', () => {
    const one = layOutSheet(order({ paper: roll, outline: square(150) }));
    const seven = layOutSheet(order({ paper: roll, outline: square(150), copies: 7 }));
    expect(one.plan.heightMm).toBeLessThan(230);
    // Three rows instead of one: longer by two pieces of 154 mm with their gaps of 6 mm, rounded up to millimetres.
    expect(seven.plan.pieces.length).toBe(7);
    expect(Math.abs(seven.plan.heightMm - one.plan.heightMm - 2 * (154 + 6))).toBeLessThanOrEqual(1);
    expect(seven.plan.marks.filter((mark) => mark.role === 'trim').length).toBe(7 * 8);
    demandSound(seven, 5);
  });

  it('points at the trim: lines lie on the trim’s own lines, just outside the bleed', () => {
    const { plan } = layOutSheet(order({ paper: a3 }));
    const trim = plan.pieces[0]!.trim;
    const lines = plan.marks.filter((mark) => mark.role === 'trim').map(boxOf);
    expect(lines.length).toBe(8);
    const upright = lines.filter((r) => r.heightMm > r.widthMm).map((r) => r.xMm + r.widthMm / 2);
    for (const x of upright) {
      expect(Math.min(Math.abs(x - trim.xMm), Math.abs(x - trim.xMm - trim.widthMm))).toBeLessThan(1e-9);
    }
  });

  it.each([
    ['no paper left', { paper: { ...a4, marginMm: 105 } }],
    ['half a piece', { copies: 0.5 }],
    ['less than no bleed', { bleedMm: -1 }],
  ])('refuses %s', (_name, over) => {
    expect(() => layOutSheet(order(over))).toThrow(expect.objectContaining({ code: 'sheet.impossible' }));
  });
});
