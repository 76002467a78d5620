import { Problem } from '#craft/problem';
import type { PaletteSheetOrder, PlannedPaletteSheet } from './types.js';

export function planPaletteSheet(_order: PaletteSheetOrder): PlannedPaletteSheet {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait for it.' });
}
