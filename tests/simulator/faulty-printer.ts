import type { RectMm, SheetPlan } from '#craft/sheet';
import { type Chance, chanceOf } from './chance.js';
import { blurred } from './optics.js';
import { blank, type Picture } from './picture.js';

export const printerInks = ['cyan', 'magenta', 'yellow', 'black'] as const;
export type PrinterInk = (typeof printerInks)[number];

export interface Nozzle {
  readonly ink: PrinterInk;
  readonly nozzle: number;
}

/**
 * A printer that places drops: a head of nozzles goes to and fro, the paper is fed between. Pass k stands `k · nozzles`
 * rows down; its nozzle n prints row `k · nozzles + n · nozzlePitchRows`. With a pitch of one row passes lie in bands
 * under each other; with another (coprime to the number of nozzles) they are woven and each row is printed once all
 * the same. A stated model, no claim about any printer.
 */
export interface FaultyPrinter {
  readonly rowsPerInch: number;
  readonly dropsPerInch: number;
  readonly nozzles: number;
  readonly nozzlePitchRows: number;
  /** Drops of passes to the right lie so far right of those of passes to the left. */
  readonly bidirectionalMm: number;
  /** Each feed is so much too long, share; and differs by chance, σ. */
  readonly feedError: number;
  readonly feedJitterMm: number;
  readonly missing: readonly Nozzle[];
  readonly deflected: readonly (Nozzle & { readonly dxMm: number; readonly dyMm: number })[];
  /** σ of a drop on the paper, and of where it lands. */
  readonly spreadMm: number;
  readonly scatterMm: number;
  /** Paper skipped at every second feed and caught up at the next: bands of overlap and gap. */
  readonly bandMm: number;
  readonly seed: number;
}

export const soundPrinter: FaultyPrinter = {
  rowsPerInch: 360,
  dropsPerInch: 720,
  nozzles: 89,
  nozzlePitchRows: 4,
  bidirectionalMm: 0,
  feedError: 0,
  feedJitterMm: 0.003,
  missing: [],
  deflected: [],
  spreadMm: 0.03,
  scatterMm: 0.006,
  bandMm: 0,
  seed: 1,
};

const canvasPpi = 1440;
/** Light that a full cover of each ink lets through, and the paper's. */
const through: Readonly<Record<PrinterInk, readonly number[]>> = {
  cyan: [0.1, 0.55, 0.78],
  magenta: [0.72, 0.12, 0.4],
  yellow: [0.86, 0.8, 0.16],
  black: [0.06, 0.06, 0.07],
};
const paper = [0.86, 0.87, 0.88];
/** Ink of a solid, in mean layers: cover is 1 − e^−layers. */
const solidLayers = 3;

/** Where a part of the plan comes to lie on paper, as it should read; picture at 1440 ppi, origin at the part's corner. */
export function printPart(plan: Pick<SheetPlan, 'marks'>, part: RectMm, printer: FaultyPrinter): Picture {
  const perMm = canvasPpi / 25.4;
  const width = Math.round(part.widthMm * perMm);
  const height = Math.round(part.heightMm * perMm);
  const chance = chanceOf(printer.seed);
  const page = pageOf(plan, part, printer);
  const feeds = new Map<number, number>();
  const layers = printerInks.map((ink) => {
    const amounts = new Float32Array(width * height);
    dropsOf(page, ink, chance, (column, row) => {
      const fired = firedBy(row, printer);
      if (!fired || printer.missing.some((one) => one.ink === ink && one.nozzle === fired.nozzle)) return;
      const off = printer.deflected.find((one) => one.ink === ink && one.nozzle === fired.nozzle);
      let feed = feeds.get(fired.pass);
      if (feed === undefined) {
        feed =
          (fired.pass * printer.nozzles * 25.4 * printer.feedError) / printer.rowsPerInch +
          printer.feedJitterMm * chance.normal() +
          (fired.pass % 2 === 0 ? printer.bandMm / 2 : -printer.bandMm / 2);
        feeds.set(fired.pass, feed);
      }
      const sway = (fired.pass % 2 === 0 ? 0.5 : -0.5) * printer.bidirectionalMm;
      const xMm =
        ((column + 0.5) * 25.4) / printer.dropsPerInch +
        sway +
        (off?.dxMm ?? 0) +
        printer.scatterMm * chance.normal();
      const yMm =
        ((row + 0.5) * 25.4) / printer.rowsPerInch +
        feed +
        (off?.dyMm ?? 0) +
        printer.scatterMm * chance.normal();
      splat(amounts, width, height, (xMm - part.xMm) * perMm - 0.5, (yMm - part.yMm) * perMm - 0.5);
    });
    return amounts;
  });
  const drop = (solidLayers * canvasPpi * canvasPpi) / (printer.dropsPerInch * printer.rowsPerInch);
  const sigma = printer.spreadMm * perMm;
  const covers = [0, 3].flatMap((first) => {
    const together = blank(width, height, canvasPpi, [0, 0, 0]);
    for (let c = 0; c < 3 && first + c < 4; c += 1) {
      const from = layers[first + c]!;
      for (let i = 0; i < from.length; i += 1) together.data[3 * i + c] = from[i]!;
    }
    const { data } = blurred(together, sigma);
    return [0, 1, 2].map((c) => (i: number) => 1 - Math.exp(-drop * data[3 * i + c]!));
  });
  const seen = blank(width, height, canvasPpi, paper);
  for (let i = 0; i < width * height; i += 1) {
    printerInks.forEach((ink, k) => {
      const cover = covers[k]!(i);
      if (cover < 1e-6) return;
      for (let c = 0; c < 3; c += 1) seen.data[3 * i + c]! *= 1 - cover * (1 - through[ink][c]!);
    });
  }
  return seen;
}

/** Which pass prints a row, with which nozzle; null when none does. */
export function firedBy(
  row: number,
  { nozzles, nozzlePitchRows: pitch }: FaultyPrinter,
): { pass: number; nozzle: number } | null {
  for (let pass = Math.floor(row / nozzles); pass >= (row - (nozzles - 1) * pitch) / nozzles; pass -= 1) {
    const down = row - pass * nozzles;
    if (down % pitch === 0) return { pass, nozzle: down / pitch };
  }
  return null;
}

interface Page {
  readonly columns: number;
  readonly rows: number;
  readonly firstColumn: number;
  readonly firstRow: number;
  /** Device RGB of each place. */
  readonly rgb: Uint8Array;
}

/** The marks on the raster of drops: a place has the colour of what covers its middle. */
function pageOf({ marks }: Pick<SheetPlan, 'marks'>, part: RectMm, printer: FaultyPrinter): Page {
  const [dx, dy] = [25.4 / printer.dropsPerInch, 25.4 / printer.rowsPerInch];
  const firstColumn = Math.floor(part.xMm / dx);
  const firstRow = Math.floor(part.yMm / dy);
  const columns = Math.ceil((part.xMm + part.widthMm) / dx) - firstColumn;
  const rows = Math.ceil((part.yMm + part.heightMm) / dy) - firstRow;
  const rgb = new Uint8Array(3 * columns * rows).fill(255);
  const paint = (rect: RectMm, ink: readonly number[], covers: (x: number, y: number) => boolean): void => {
    const [left, right] = [rect.xMm / dx - 0.5, (rect.xMm + rect.widthMm) / dx - 0.5];
    const [top, bottom] = [rect.yMm / dy - 0.5, (rect.yMm + rect.heightMm) / dy - 0.5];
    const tiny = 1e-6;
    for (
      let r = Math.max(0, Math.ceil(top - tiny) - firstRow);
      r < rows && r + firstRow < bottom - tiny;
      r += 1
    ) {
      for (
        let c = Math.max(0, Math.ceil(left - tiny) - firstColumn);
        c < columns && c + firstColumn < right - tiny;
        c += 1
      ) {
        if (covers((c + firstColumn + 0.5) * dx, (r + firstRow + 0.5) * dy))
          rgb.set(ink, 3 * (r * columns + c));
      }
    }
  };
  for (const mark of marks) {
    if (mark.kind === 'fill') paint(mark.rect, mark.rgb, () => true);
    if (mark.kind === 'shape') paint(mark.rect, mark.rgb, (x, y) => isWithin(mark.corners, x, y));
    if (mark.kind === 'cells') {
      const { rect, columns: across, rows: along, cells } = mark;
      paint(rect, [0, 0, 0], (x, y) => {
        const i = Math.min(across - 1, Math.floor(((x - rect.xMm) / rect.widthMm) * across));
        const j = Math.min(along - 1, Math.floor(((y - rect.yMm) / rect.heightMm) * along));
        return cells[j * across + i] === true;
      });
    }
  }
  return { columns, rows, firstColumn, firstRow, rgb };
}

function isWithin(corners: readonly { xMm: number; yMm: number }[], x: number, y: number): boolean {
  let inside = false;
  corners.forEach((a, i) => {
    const b = corners[(i + 1) % corners.length]!;
    if (a.yMm > y === b.yMm > y) return;
    if (x < a.xMm + ((y - a.yMm) / (b.yMm - a.yMm)) * (b.xMm - a.xMm)) inside = !inside;
  });
  return inside;
}

/** Halftone by error diffusion (Floyd & Steinberg, Proc. SID 17, 1976), a little chance in its threshold. */
function dropsOf(
  page: Page,
  ink: PrinterInk,
  chance: Chance,
  fire: (column: number, row: number) => void,
): void {
  const { columns, rows, rgb, firstColumn, firstRow } = page;
  let errors = new Float32Array(columns + 2);
  for (let r = 0; r < rows; r += 1) {
    const next = new Float32Array(columns + 2);
    for (let c = 0; c < columns; c += 1) {
      const wanted = inkOf(rgb, 3 * (r * columns + c), ink);
      if (wanted === 0) continue;
      const here = wanted + errors[c + 1]!;
      const isFired = wanted === 1 || here > 0.5 + 0.3 * (chance.next() - 0.5);
      if (isFired) fire(c + firstColumn, r + firstRow);
      const left = Math.max(-1, Math.min(1, here - (isFired ? 1 : 0)));
      errors[c + 2]! += (7 / 16) * left;
      next[c]! += (3 / 16) * left;
      next[c + 1]! += (5 / 16) * left;
      next[c + 2]! += left / 16;
    }
    errors = next;
  }
}

/** Full replacement of grey by black; no more than a driver might do. */
function inkOf(rgb: Uint8Array, at: number, ink: PrinterInk): number {
  const top = Math.max(rgb[at]!, rgb[at + 1]!, rgb[at + 2]!);
  if (ink === 'black') return 1 - top / 255;
  return top === 0 ? 0 : 1 - rgb[at + printerInks.indexOf(ink)]! / top;
}

function splat(to: Float32Array, width: number, height: number, x: number, y: number): void {
  const [x0, y0] = [Math.floor(x), Math.floor(y)];
  if (x0 < 0 || y0 < 0 || x0 + 1 >= width || y0 + 1 >= height) return;
  const [fx, fy] = [x - x0, y - y0];
  const at = y0 * width + x0;
  to[at]! += (1 - fx) * (1 - fy);
  to[at + 1]! += fx * (1 - fy);
  to[at + width]! += (1 - fx) * fy;
  to[at + width + 1]! += fx * fy;
}
