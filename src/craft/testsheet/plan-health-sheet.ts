import { Problem } from '#craft/problem';
import { type Mark, planFrame, planFrames } from '#craft/sheet';
import { healthParts } from './health-layout.js';
import type { HealthLayout, HealthSheetOrder, PlannedHealthSheet } from './health-sheet-types.js';

/**
 * A sheet on which a printer shows what ails it; printed in the quality that is used for work, not turned on the paper,
 * so that y runs along the feed.
 *
 * A desktop driver lets nobody fire one nozzle or choose a pass. So nothing here asks for either; every part is such
 * that whatever row, pass or direction the driver chose is told afterwards from where the ink lies:
 *
 * - ladder: thin level lines, one for every row of the raster in turn, spread over columns so that lines of one column
 *   are 1/90 inch apart. The row of a nozzle that does not fire misses its line; one printed by several nozzles in
 *   turn has a weak one; a crooked nozzle's line stands off its place.
 * - combs: upright columns of dots one row thick, each column with every fourth row only. The dots of a row lie where the
 *   carriage was when that row's pass fired them: rows of passes to the left and of passes to the right form two heaps,
 *   whether passes lie in bands or are woven row by row. (Rows that are filled by passes of both directions show one
 *   heap of wider dots: then no offset can be told.)
 * - squares all round: lengths along the feed against those across it.
 * - tints for bands and grain, slanted squares for edges in both directions, grids of lines, solids.
 *
 * Marks are device RGB and no colour path is applied; `rowsPerInch` is the raster the sheet must be written in.
 *
 * @throws Problem `sheet.impossible` when it is too small
 */
export function planHealthSheet(order: HealthSheetOrder): PlannedHealthSheet {
  const { sheetId, mirrorOnWriting, rowsPerInch = 360 } = order;
  const widthMm = hundredth(order.widthMm);
  const heightMm = hundredth(order.heightMm);
  const marginMm = hundredth(order.marginMm);
  const caption = order.caption ?? 'Health sheet: printed, not pressed';
  const frameOrder = { ...order, widthMm, heightMm, marginMm, caption };
  for (const { frame, variant, marks, liveArea } of planFrames(frameOrder)) {
    const parts = healthParts(liveArea, rowsPerInch);
    if (!parts) continue;
    const sheet = { sheetId, widthMm, heightMm, mirrorOnWriting };
    const layout: HealthLayout = { ...sheet, frame, rowsPerInch, ...parts };
    return {
      variant,
      layout,
      plan: { ...sheet, pieces: [], marks: [...marks, ...healthMarks(layout)], frame },
    };
  }
  const none = planFrame(frameOrder);
  throw new Problem(
    'sheet.impossible',
    none.frame === null
      ? none.reason
      : `A sheet of ${Math.round(widthMm)} × ${Math.round(heightMm)} mm has no room for a health sheet.`,
    { remedy: 'Use a sheet of 148 × 210 mm (A5, upright) or larger.' },
  );
}

/** All parts but the frame. */
function healthMarks(layout: HealthLayout): Mark[] {
  const { registration, ladders, combs, grids, slants, solids, tints } = layout;
  return [
    ...registration.map(({ xMm, yMm, sideMm }): Mark => {
      const rect = { xMm: xMm - sideMm / 2, yMm: yMm - sideMm / 2, widthMm: sideMm, heightMm: sideMm };
      return { kind: 'fill', rect, rgb: [0, 0, 0], role: 'registration' };
    }),
    ...ladders.flatMap(({ deviceRgb: rgb, steps, firstYMm, stepMm, columnXMm, lineMm }) =>
      Array.from({ length: steps }, (_, k): Mark => {
        const yMm = firstYMm + (k - 0.5) * stepMm;
        const rect = { xMm: columnXMm[k % columnXMm.length]!, yMm, widthMm: lineMm, heightMm: stepMm };
        return { kind: 'fill', rect, rgb, role: 'patch' };
      }),
    ),
    ...combs.xMm.flatMap((xMm, j) => {
      const marks: Mark[] = [];
      for (let r = j % combs.residues; r < combs.rows; r += combs.residues) {
        const yMm = combs.firstYMm + (r - 0.5) * combs.rowMm;
        const rect = { xMm: xMm - combs.dotMm / 2, yMm, widthMm: combs.dotMm, heightMm: combs.rowMm };
        marks.push({ kind: 'fill', rect, rgb: [0, 0, 0], role: 'patch' });
      }
      return marks;
    }),
    ...grids.flatMap(({ repeats, periodMm, rect }) => {
      const marks: Mark[] = [];
      const isAcross = repeats === 'across';
      const room = isAcross ? rect.widthMm : rect.heightMm;
      for (let k = 0; (k + 0.5) * periodMm <= room + 1e-9; k += 1) {
        const bar = isAcross
          ? { ...rect, xMm: rect.xMm + k * periodMm, widthMm: periodMm / 2 }
          : { ...rect, yMm: rect.yMm + k * periodMm, heightMm: periodMm / 2 };
        marks.push({ kind: 'fill', rect: bar, rgb: [0, 0, 0], role: 'patch' });
      }
      return marks;
    }),
    ...slants.map(({ corners, deviceRgb: rgb }): Mark => {
      const xs = corners.map(({ xMm }) => xMm);
      const ys = corners.map(({ yMm }) => yMm);
      const [xMm, yMm] = [Math.min(...xs), Math.min(...ys)];
      const rect = { xMm, yMm, widthMm: Math.max(...xs) - xMm, heightMm: Math.max(...ys) - yMm };
      return { kind: 'shape', rect, corners, rgb, role: 'edge' };
    }),
    ...[...solids, ...tints].map(
      ({ rect, deviceRgb: rgb }): Mark => ({ kind: 'fill', rect, rgb, role: 'patch' }),
    ),
  ];
}

const hundredth = (mm: number): number => Math.round(mm * 100) / 100;
