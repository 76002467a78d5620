import { createRandom } from '#craft/numerics';
import { Problem } from '#craft/problem';
import {
  type FrameVariant,
  frameVariants,
  largeFrameVariants,
  liveAreas,
  type Mark,
  type PlannedFrame,
  planFrame,
  planFrames,
  type Rgb8,
  type SheetCode,
} from '#craft/sheet';
import { type CellGrid, cellRect, fitCells, patchSizes, registrationMark } from './cell-grid.js';
import { choosePatches } from './choose-patches.js';
import { colourSheetCounts, colourSheetRecipe } from './colour-sheet-id.js';
import { type Cell, type ControlKind, controlKinds, spreadControls } from './control-patches.js';
import type { ChartPatch, ColourSheetOrder, PlannedColourSheet, SheetMaterial } from './types.js';

/**
 * A colour test sheet: what is drawn and what the reader goes by, from one description.
 *
 * @throws Problem `request.invalid` for too few or too many patches, `sheet.impossible` when they do not fit
 */
export function planColourSheet(order: ColourSheetOrder): PlannedColourSheet {
  const { patches, material, seed } = order;
  if (patches.length < colourSheetCounts.fewest || patches.length > colourSheetCounts.most) {
    throw new Problem('request.invalid', `A colour test sheet of ${patches.length} patches cannot be made.`, {
      remedy: `Choose from ${colourSheetCounts.fewest} to ${colourSheetCounts.most} patches.`,
    });
  }
  const kinds = controlKinds(patches.length);
  const needed = cellsFor(patches.length, kinds);
  const { planned, grid } = roomFor(order, needed);
  const frame = planned.frame;
  const { free, registration } = sortCells(grid);

  const random = createRandom(seed);
  const more = withSpareCells(kinds, free.length - needed);
  const controlCells = spreadControls(free, more, random);
  const placed: ChartPatch[] = [];
  const put = ({ column, row }: Cell, deviceRgb: Rgb8, chosen: number | null): void => {
    placed.push({ column, row, rect: cellRect(grid, column, row), deviceRgb, chosen });
  };
  more.forEach(({ rgb }, k) => {
    for (const cell of controlCells[k]!) put(cell, rgb, null);
  });
  const shuffled = random.shuffle(free);
  patches.forEach(({ rgb }, i) => {
    put(shuffled[i]!, rgb.map((v) => Math.round(255 * Math.min(1, Math.max(0, v)))) as unknown as Rgb8, i);
  });
  placed.sort((a, b) => a.row - b.row || a.column - b.column);

  const marks: Mark[] = [
    ...planned.marks,
    ...placed.map(({ rect, deviceRgb: rgb }): Mark => ({ kind: 'fill', rect, rgb, role: 'patch' })),
    ...registration.map(({ xMm, yMm, sideMm }): Mark => {
      const rect = { xMm: xMm - sideMm / 2, yMm: yMm - sideMm / 2, widthMm: sideMm, heightMm: sideMm };
      return { kind: 'fill', rect, rgb: [0, 0, 0], role: 'registration' };
    }),
  ];
  const { sheetId, mirrorOnWriting } = order;
  const widthMm = hundredth(order.widthMm);
  const heightMm = hundredth(order.heightMm);
  return {
    variant: planned.variant,
    plan: { sheetId, widthMm, heightMm, mirrorOnWriting, pieces: [], marks, frame },
    layout: {
      sheetId,
      widthMm,
      heightMm,
      mirrorOnWriting,
      material,
      frame,
      area: grid.area,
      columns: grid.columns,
      rows: grid.rows,
      pitchMm: grid.pitchMm,
      gapMm: grid.gapMm,
      patches: placed,
      registration,
    },
  };
}

/** The sheet that a code read from it tells of; null when its id is not a colour test sheet's. */
export function colourSheetOfCode(code: SheetCode): PlannedColourSheet | null {
  const recipe = colourSheetRecipe(code.sheetId);
  if (!recipe) return null;
  const { sheetId, widthMm, heightMm, marginMm, mirrorOnWriting, variant } = code;
  const { count, seed, material } = recipe;
  const sheet = { sheetId, widthMm, heightMm, marginMm, mirrorOnWriting, variant };
  try {
    return planColourSheet({ ...sheet, material, seed, patches: choosePatches(count, seed) });
  } catch {
    // Such a sheet was never made: the id is another sheet's that happens to look like one.
    return null;
  }
}

function roomFor(order: ColourSheetOrder, needed: number): { planned: PlannedFrame; grid: CellGrid } {
  const { material, patches } = order;
  const words = material === 'fabric' ? 'for fabric' : 'for hard blanks';
  const caption = order.caption ?? `Colour test sheet, ${patches.length} patches ${words}`;
  const exact = { ...order, ...atHundredths(order), caption, variants: variantsFor(material) };
  const frames = planFrames(exact);
  for (const planned of frames) {
    const grid = fitCells(planned.liveArea, needed, material);
    if (grid) return { planned, grid };
  }
  const none = planFrame(exact);
  if (none.frame === null) {
    throw new Problem('sheet.impossible', none.reason, { remedy: 'Use a larger sheet.' });
  }
  const { leastPatchMm } = patchSizes[material];
  const fits = mostThatFit(frames, material);
  const size = `${Math.round(order.widthMm)} × ${Math.round(order.heightMm)} mm`;
  throw new Problem(
    'sheet.impossible',
    `${patches.length} patches of at least ${leastPatchMm} mm ${words} do not fit on a sheet of ${size}.`,
    {
      remedy:
        fits >= colourSheetCounts.fewest
          ? `Choose at most ${fits} patches, or a larger sheet.`
          : 'Choose a larger sheet.',
    },
  );
}

/**
 * The most patches that find room on a paper, controls and all; 0 when no chart does.
 */
export function mostPatches(
  paper: Pick<ColourSheetOrder, 'widthMm' | 'heightMm' | 'marginMm' | 'material'>,
): number {
  const { material } = paper;
  const rooms = liveAreas({ ...atHundredths(paper), variants: variantsFor(material) });
  return mostThatFit(rooms, material);
}

/** More patches never need fewer cells, so the number can be closed in on. */
function mostThatFit(rooms: readonly Pick<PlannedFrame, 'liveArea'>[], material: SheetMaterial): number {
  const fits = (count: number): boolean => {
    const needed = cellsFor(count, controlKinds(count));
    return rooms.some(({ liveArea }) => fitCells(liveArea, needed, material));
  };
  let [fit, not]: [number, number] = [colourSheetCounts.fewest - 1, colourSheetCounts.most + 1];
  while (not - fit > 1) {
    const middle = Math.floor((fit + not) / 2);
    if (fits(middle)) fit = middle;
    else not = middle;
  }
  return fit < colourSheetCounts.fewest ? 0 : fit;
}

function sortCells(grid: CellGrid): {
  free: Cell[];
  registration: PlannedColourSheet['layout']['registration'];
} {
  const cells = grid.isRegistration.map((_, i) => ({
    column: i % grid.columns,
    row: Math.floor(i / grid.columns),
  }));
  return {
    free: cells.filter((_, i) => !grid.isRegistration[i]),
    registration: cells
      .filter((_, i) => grid.isRegistration[i])
      .map(({ column, row }) => registrationMark(grid, column, row)),
  };
}

/** Cells left over become further controls, at most as many again; what is left then stays bare. */
function withSpareCells(kinds: readonly ControlKind[], spare: number): ControlKind[] {
  const wanted = kinds.reduce((sum, { copies }) => sum + copies, 0);
  const use = Math.min(spare, wanted);
  return kinds.map(({ rgb, copies }, k) => ({
    rgb,
    copies: copies + Math.floor(use / kinds.length) + (k < use % kinds.length ? 1 : 0),
  }));
}

const cellsFor = (patchCount: number, kinds: readonly ControlKind[]): number =>
  kinds.reduce((sum, { copies }) => sum + copies, patchCount);
/** Sizes as the code on the sheet can say them, so that the reader plans the very same. */
const atHundredths = <T extends Pick<ColourSheetOrder, 'widthMm' | 'heightMm' | 'marginMm'>>(
  paper: T,
): T => ({
  ...paper,
  widthMm: hundredth(paper.widthMm),
  heightMm: hundredth(paper.heightMm),
  marginMm: hundredth(paper.marginMm),
});
/** Cloth swallows a small code: its own marks first, the usual ones where those leave too little room. */
const variantsFor = (material: SheetMaterial): readonly FrameVariant[] =>
  material === 'fabric' ? [...largeFrameVariants, ...frameVariants] : frameVariants;
const hundredth = (mm: number): number => Math.round(mm * 100) / 100;
