import { Problem } from '#craft/problem';
import type { EvennessMap, LabCell } from './types.js';

export function evennessMap(
  _cells: readonly LabCell[],
  _columns: number,
  _rows: number,
  _pitchMm: number,
): EvennessMap {
  throw new Problem('internal.fault', 'Not built yet.', { remedy: 'Wait for it.' });
}
