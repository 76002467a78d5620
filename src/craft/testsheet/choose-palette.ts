import type { Triple } from '#craft/colour';
import { Problem } from '#craft/problem';
import type { PaletteColour } from './types.js';

export function choosePalette(_reaches: (relativeLab: Triple) => boolean, _count = 96): PaletteColour[] {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait for it.' });
}
