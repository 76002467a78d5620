import { describe, expect, it } from 'vitest';
import { isProblem } from '#craft/problem';
import { newSheetId, type RectMm } from '#craft/sheet';
import { planHealthSheet } from './plan-health-sheet.js';

const order = {
  sheetId: newSheetId(Uint8Array.of(5, 1, 2, 3, 4, 5)),
  widthMm: 148,
  heightMm: 210,
  marginMm: 3,
  mirrorOnWriting: true,
};

describe('a health sheet', () => {
  it.each([360, 720] as const)('has every thin line on a row of its raster of %d an inch', (rowsPerInch) => {
    const { layout } = planHealthSheet({ ...order, rowsPerInch });
    const { ladders, combs } = layout;
    for (const { firstYMm, stepMm } of [...ladders, { firstYMm: combs.firstYMm, stepMm: combs.rowMm }]) {
      expect(stepMm).toBeCloseTo(25.4 / rowsPerInch, 9);
      const row = ((firstYMm - stepMm / 2) * rowsPerInch) / 25.4;
      expect(Math.abs(row - Math.round(row))).toBeLessThan(1e-6);
    }
    for (const { columnXMm, stepMm } of ladders) {
      expect(columnXMm.length * stepMm).toBeCloseTo(25.4 / 90, 9);
    }
  });

  it.each([360, 720] as const)('has what is placed finely on the raster of %d, both ways', (rowsPerInch) => {
    const { layout } = planHealthSheet({ ...order, rowsPerInch });
    const { combs, registration, grids } = layout;
    const edges = [
      ...combs.xMm.flatMap((x) => [x - combs.dotMm / 2, x + combs.dotMm / 2]),
      ...registration.flatMap(({ xMm, yMm, sideMm: s }) => [
        xMm - s / 2,
        xMm + s / 2,
        yMm - s / 2,
        yMm + s / 2,
      ]),
      ...grids.flatMap(({ rect, periodMm }) => [rect.xMm, rect.yMm, rect.xMm + periodMm / 2]),
    ];
    for (const mm of edges) {
      const place = (mm * rowsPerInch) / 25.4;
      expect(Math.abs(place - Math.round(place))).toBeLessThan(1e-6);
    }
  });

  it('has marks that touch no mark of another part and lie on the sheet', () => {
    const { plan, layout } = planHealthSheet(order);
    const { combs } = layout;
    const ladder = ({ columnXMm, firstYMm, steps, stepMm, lineMm }: (typeof layout.ladders)[number]) => ({
      xMm: columnXMm[0]!,
      yMm: firstYMm - stepMm / 2,
      widthMm: columnXMm.length * lineMm,
      heightMm: steps * stepMm,
    });
    const parts: RectMm[] = [
      ...layout.ladders.map(ladder),
      {
        xMm: combs.xMm[0]! - combs.dotMm / 2,
        yMm: combs.firstYMm - combs.rowMm / 2,
        widthMm: combs.xMm.at(-1)! - combs.xMm[0]! + combs.dotMm,
        heightMm: combs.rows * combs.rowMm,
      },
      ...layout.grids.map(({ rect }) => rect),
      ...layout.solids.map(({ rect }) => rect),
      ...layout.tints.flatMap(({ rect, ground }) => [rect, ground]),
      ...plan.marks.flatMap((mark) => (mark.kind === 'shape' ? [mark.rect] : [])),
      ...plan.marks.flatMap((mark) =>
        mark.role === 'registration' && mark.kind === 'fill' ? [mark.rect] : [],
      ),
      ...layout.frame.markers.map(({ rect }) => rect),
      layout.frame.qr,
    ];
    const apart = (a: RectMm, b: RectMm): boolean =>
      a.xMm + a.widthMm < b.xMm ||
      b.xMm + b.widthMm < a.xMm ||
      a.yMm + a.heightMm < b.yMm ||
      b.yMm + b.heightMm < a.yMm;
    parts.forEach((a, i) => {
      for (const b of parts.slice(i + 1)) expect(apart(a, b), JSON.stringify([a, b])).toBe(true);
      expect(a.xMm).toBeGreaterThanOrEqual(order.marginMm);
      expect(a.xMm + a.widthMm).toBeLessThanOrEqual(order.widthMm - order.marginMm);
      expect(a.yMm).toBeGreaterThanOrEqual(order.marginMm - 1);
      expect(a.yMm + a.heightMm).toBeLessThanOrEqual(order.heightMm - order.marginMm);
    });
  });

  it('too small a sheet is refused', () => {
    let refused: unknown;
    try {
      planHealthSheet({ ...order, widthMm: 100, heightMm: 100 });
    } catch (error) {
      refused = error;
    }
    expect(isProblem(refused) && refused.code).toBe('sheet.impossible');
  });
});
