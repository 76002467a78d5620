import { Problem } from '#craft/problem';
import {
  type FrameVariant,
  frameVariants,
  largeFrameVariants,
  type Mark,
  planFrame,
  planFrames,
  type Rgb8,
} from '#craft/sheet';
import { cellRect, fitCells, registrationMark } from './cell-grid.js';
import type { EvennessSheetOrder, PlannedEvennessSheet } from './press-sheet-types.js';
import type { ChartPatch, SheetMaterial } from './types.js';

/** About 24 × 16: finer than a platen's faults are (common practice), coarse enough to be read without doubt. */
const wantedCells = 360;
/** Fewer say nothing of where. */
const leastCells = 24;
const middleGrey: Rgb8 = [128, 128, 128];

/**
 * A sheet of one middle tone, in cells with bare ground between: the ground says how the scanner's light falls in the
 * very picture that is read. A second scan of the sheet turned by 180° would not do instead: it shows only that part
 * of the light which differs from one end to the other, and a lamp brighter in the middle is alike both ways round.
 *
 * @throws Problem `sheet.impossible` when it is too small
 */
export function planEvennessSheet(order: EvennessSheetOrder): PlannedEvennessSheet {
  const { sheetId, mirrorOnWriting, material, tone = middleGrey } = order;
  const widthMm = hundredth(order.widthMm);
  const heightMm = hundredth(order.heightMm);
  const marginMm = hundredth(order.marginMm);
  const caption = order.caption ?? 'Evenness sheet: press it over the whole platen';
  const frameOrder = { ...order, widthMm, heightMm, marginMm, caption, variants: variantsFor(material) };
  const frames = planFrames(frameOrder);
  for (const planned of frames) {
    for (let cells = wantedCells; cells >= leastCells; cells = Math.floor(0.9 * cells)) {
      const grid = fitCells(planned.liveArea, cells, material);
      if (!grid) continue;
      const patches: ChartPatch[] = [];
      const registration = [];
      for (let i = 0; i < grid.columns * grid.rows; i += 1) {
        const [column, row] = [i % grid.columns, Math.floor(i / grid.columns)];
        if (grid.isRegistration[i]) registration.push(registrationMark(grid, column, row));
        else patches.push({ column, row, rect: cellRect(grid, column, row), deviceRgb: tone, chosen: null });
      }
      const marks: Mark[] = [
        ...planned.marks,
        ...patches.map(({ rect, deviceRgb: rgb }): Mark => ({ kind: 'fill', rect, rgb, role: 'patch' })),
        ...registration.map(({ xMm, yMm, sideMm }): Mark => {
          const rect = { xMm: xMm - sideMm / 2, yMm: yMm - sideMm / 2, widthMm: sideMm, heightMm: sideMm };
          return { kind: 'fill', rect, rgb: [0, 0, 0], role: 'registration' };
        }),
      ];
      const { frame, variant } = planned;
      const { area, columns, rows, pitchMm, gapMm } = grid;
      const sheet = { sheetId, widthMm, heightMm, mirrorOnWriting };
      return {
        variant,
        plan: { ...sheet, pieces: [], marks, frame },
        layout: { ...sheet, material, frame, area, columns, rows, pitchMm, gapMm, patches, registration },
      };
    }
  }
  const none = planFrame(frameOrder);
  throw new Problem(
    'sheet.impossible',
    none.frame === null
      ? none.reason
      : `A sheet of ${Math.round(widthMm)} × ${Math.round(heightMm)} mm has no room for an evenness map.`,
    { remedy: 'Use a larger sheet, as large as the platen if that can be printed.' },
  );
}

const variantsFor = (material: SheetMaterial): readonly FrameVariant[] =>
  material === 'fabric' ? [...largeFrameVariants, ...frameVariants] : frameVariants;
const hundredth = (mm: number): number => Math.round(mm * 100) / 100;
