import { Problem } from '#craft/problem';
import type { GreySheetOrder, PlannedGreySheet } from './types.js';

export function planGreySheet(_order: GreySheetOrder): PlannedGreySheet {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait for it.' });
}
