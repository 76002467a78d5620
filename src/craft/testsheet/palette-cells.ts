import type { RectMm } from '#craft/sheet';
import { leading, longestWordInCaps, widthInCaps, wrapped } from './label-text.js';
import { type PaletteRuns, unbroken } from './palette-runs.js';

export const paletteCapMm = 2.2;
/** Smaller swatches say little of a colour. */
const leastSwatch = { widthMm: 14, heightMm: 6 } as const;
const mostSwatch = { widthMm: 44, heightMm: 34 } as const;
const gapMm = 2.5;
/** From swatch to title, and from the note to the next swatch. */
const textAirMm = 1;
const rowAirMm = 2.6;
const mostTitleLines = 2;

export interface PaletteCells {
  readonly columns: number;
  readonly swatch: { readonly widthMm: number; readonly heightMm: number };
  readonly pitch: { readonly acrossMm: number; readonly downMm: number };
  readonly titleLines: number;
  readonly textAirMm: number;
}

type Words = readonly { readonly title: string; readonly note: string }[];

/** The largest swatches with whole titles, or if none, with titles cut short; null when they do not fit at all. */
export function fitPalette(
  room: RectMm,
  words: Words,
  { run, slots }: PaletteRuns = unbroken(words),
): PaletteCells | null {
  let best: Way | null = null;
  for (let columns = run; columns <= mostColumns(room); columns += run) {
    for (let titleLines = 0; titleLines <= mostTitleLines; titleLines += 1) {
      const rows = Math.floor(slots.at(-1)! / columns) + 1;
      const cells = cellsOf(room, words, { columns, rows, titleLines });
      if (!cells) continue;
      const isWhole = words.every(({ title, note }) => fits(cells, title, note));
      // Between a square and twice as wide as high looks best; more of either is no gain.
      const { widthMm, heightMm } = cells.swatch;
      const worth = Math.min(widthMm, 2 * heightMm) * Math.min(heightMm, widthMm);
      const way = { cells, isWhole, worth };
      if (!best || isBetter(way, best)) best = way;
    }
  }
  return best?.cells ?? null;
}

interface Way {
  readonly cells: PaletteCells;
  readonly isWhole: boolean;
  readonly worth: number;
}

/** Whole titles before large swatches before many columns. */
function isBetter(way: Way, than: Way): boolean {
  if (way.isWhole !== than.isWhole) return way.isWhole;
  if (Math.abs(way.worth - than.worth) > 1e-6) return way.worth > than.worth;
  return way.cells.columns > than.cells.columns;
}

/** How many swatches find room, titles cut to one line where they must. */
export function mostSwatches(room: RectMm, words: Words): number {
  const hasTitles = words.some(({ title }) => title.trim() !== '');
  const text = textHeight(hasTitles ? 1 : 0, words);
  const rows = Math.floor((room.heightMm + rowAirMm) / (leastSwatch.heightMm + text + rowAirMm));
  return Math.max(0, rows) * mostColumns(room);
}

const mostColumns = (room: RectMm): number =>
  Math.floor((room.widthMm + gapMm + 1e-9) / (leastSwatch.widthMm + gapMm));

function cellsOf(
  room: RectMm,
  words: Words,
  { columns, rows, titleLines }: { columns: number; rows: number; titleLines: number },
): PaletteCells | null {
  const hasTitles = words.some(({ title }) => title.trim() !== '');
  if (hasTitles !== titleLines > 0) return null;
  const acrossMm = (room.widthMm + gapMm) / columns;
  const downMm = (room.heightMm + rowAirMm) / rows;
  const widthMm = Math.min(mostSwatch.widthMm, acrossMm - gapMm);
  const heightMm = Math.min(
    mostSwatch.heightMm,
    0.85 * widthMm,
    downMm - rowAirMm - textHeight(titleLines, words),
  );
  if (widthMm < leastSwatch.widthMm - 1e-9 || heightMm < leastSwatch.heightMm - 1e-9) return null;
  // Few swatches stay together at the top instead of drifting over the sheet.
  const close = { acrossMm: widthMm + 2 * gapMm, downMm: heightMm + textHeight(titleLines, words) + 8 };
  return {
    columns,
    swatch: { widthMm, heightMm },
    pitch: { acrossMm: Math.min(acrossMm, close.acrossMm), downMm: Math.min(downMm, close.downMm) },
    titleLines,
    textAirMm,
  };
}

function textHeight(titleLines: number, words: Words): number {
  const lines = titleLines + (words.some(({ note }) => note.trim() !== '') ? 1 : 0);
  return lines === 0 ? 0 : textAirMm + ((lines - 1) * leading + 1) * paletteCapMm;
}

function fits({ swatch, titleLines }: PaletteCells, title: string, note: string): boolean {
  const most = swatch.widthMm / paletteCapMm;
  return (
    longestWordInCaps(title) <= most &&
    wrapped(title, most).lines.length <= titleLines &&
    widthInCaps(note) <= most
  );
}
