import { Problem } from '#craft/problem';
import { type Mark, type PlannedFrame, planFrame, planFrames, type RectMm } from '#craft/sheet';
import { lineMarks, wrapped } from './label-text.js';
import { fitPalette, mostSwatches, type PaletteCells, paletteCapMm } from './palette-cells.js';
import { familyRuns, type PaletteRuns, unbroken } from './palette-runs.js';
import type { PaletteSheetOrder, PlannedPaletteSheet } from './types.js';

/**
 * Swatches in rows, each with its title and its note under it in capitals of 2.2 mm.
 *
 * @throws Problem `request.invalid` without swatches, `sheet.impossible` when they do not fit (it says how many do)
 */
export function planPaletteSheet(order: PaletteSheetOrder): PlannedPaletteSheet {
  if (order.swatches.length === 0) {
    throw new Problem('request.invalid', 'A palette of no colours cannot be made.', {
      remedy: 'Choose at least one colour.',
    });
  }
  const { planned, room, cells, runs } = roomFor(order);
  const { frame } = planned;
  const { swatch, pitch, columns } = cells;
  const usedMm = (Math.min(columns, order.swatches.length) - 1) * pitch.acrossMm + swatch.widthMm;
  const leftMm = room.xMm + (room.widthMm - usedMm) / 2;
  const swatches = order.swatches.map(({ deviceRgb, title, note }, i) => ({
    rect: {
      xMm: leftMm + (runs.slots[i]! % columns) * pitch.acrossMm,
      yMm: room.yMm + Math.floor(runs.slots[i]! / columns) * pitch.downMm,
      ...swatch,
    },
    deviceRgb,
    title,
    note,
  }));
  const marks: Mark[] = [
    ...planned.marks,
    ...swatches.flatMap(({ rect, deviceRgb: rgb, title, note }): Mark[] => {
      const { xMm, widthMm } = rect;
      const yMm = rect.yMm + rect.heightMm + cells.textAirMm;
      const most = widthMm / paletteCapMm;
      const titleLines = wrapped(title, most, cells.titleLines).lines;
      const noteLines = wrapped(note, most, 1).lines;
      return [
        { kind: 'fill', rect, rgb, role: 'patch' },
        ...lineMarks([...titleLines, ...noteLines], { xMm, yMm, widthMm, capMm: paletteCapMm }),
      ];
    }),
  ];
  const { sheetId, widthMm, heightMm, mirrorOnWriting } = order;
  return { plan: { sheetId, widthMm, heightMm, mirrorOnWriting, pieces: [], marks, frame }, swatches };
}

/** So far from the marks that no note looks like one of theirs. */
const awayMm = 1.5;

interface PaletteRoom {
  readonly planned: PlannedFrame;
  readonly room: RectMm;
  readonly cells: PaletteCells;
  readonly runs: PaletteRuns;
}

/** Families under one another where that fits, in whatever arrangement of marks; else one after the other. */
function roomFor(order: PaletteSheetOrder): PaletteRoom {
  const { swatches, widthMm, heightMm } = order;
  const exact = { ...order, caption: order.caption ?? 'Palette' };
  const frames = planFrames(exact);
  for (const runs of [familyRuns(swatches), unbroken(swatches)]) {
    if (!runs) continue;
    for (const planned of frames) {
      const room = roomIn(planned);
      const cells = fitPalette(room, swatches, runs);
      if (cells) return { planned, room, cells, runs };
    }
  }
  const none = planFrame(exact);
  if (none.frame === null) {
    throw new Problem('sheet.impossible', none.reason, { remedy: 'Use a larger sheet.' });
  }
  const most = Math.max(...frames.map((planned) => mostSwatches(roomIn(planned), swatches)));
  const size = `${Math.round(widthMm)} × ${Math.round(heightMm)} mm`;
  throw new Problem('sheet.impossible', `${swatches.length} swatches do not fit on a sheet of ${size}.`, {
    remedy: most > 0 ? `Choose at most ${most} colours, or a larger sheet.` : 'Use a larger sheet.',
  });
}

const roomIn = ({ liveArea }: PlannedFrame): RectMm => ({
  ...liveArea,
  yMm: liveArea.yMm + awayMm,
  heightMm: liveArea.heightMm - 2 * awayMm,
});
