import { Problem } from '#craft/problem';
import type { PlatenReadings, PlatenTruth } from './types.js';

export function platenTruth(
  _readings: PlatenReadings,
  _platen: { readonly widthMm: number; readonly depthMm: number },
): PlatenTruth {
  throw new Problem('internal.fault', 'Not built yet.', { remedy: 'Wait for it.' });
}
