import { writeCgats } from '#craft/cgats';
import type { Triple3 } from '#craft/colour';
import { type ColourSheetOrder, planColourSheet } from '#craft/testsheet';
import { type Dye, labOnPiece } from './spectral-piece.js';
import { measured, type SpectralPrinter } from './virtual-printer.js';
import { tableOf } from './virtual-printer-comparison.js';

/** An instrument's file of a pressed chart, patch by patch where it lies; noise of 0.2 ΔE*ab. */
export function measuredOnPiece(
  printer: SpectralPrinter,
  dye: Dye,
  order: ColourSheetOrder,
  seed: number,
): Uint8Array {
  const { patches } = planColourSheet(order).layout;
  const rgb = patches.map(({ deviceRgb }) => deviceRgb.map((v) => v / 255) as Triple3);
  const lab = labOnPiece(
    printer,
    dye,
    patches.map(({ rect }, i) => ({
      rgb: rgb[i]!,
      u: (2 * (rect.xMm + rect.widthMm / 2)) / order.widthMm - 1,
      v: (2 * (rect.yMm + rect.heightMm / 2)) / order.heightMm - 1,
    })),
  );
  const sampleIds = patches.map(({ column, row }) => `${String.fromCharCode(65 + column)}${row + 1}`);
  const table = { ...tableOf(rgb, measured(lab, 0.2, 900 + seed)), sampleIds };
  return Buffer.from(writeCgats(table, { originator: 'Virtual instrument (invented, simulated)' }));
}
