import { mmToPixels } from '#craft/units';
import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/** Below 150 pixels per inch edges look soft at arm's length; below 220 fine lettering may (common practice). */
const softPpi = 150;
const modestPpi = 220;

/** Whether the artwork has pixels enough at the size it is printed. */
export function checkResolution({ layout, artworkPixels }: SheetUnderCheck): SheetCheck[] {
  const ppi = layout.effectivePpi;
  if (ppi >= modestPpi) return [];
  const { widthMm, heightMm } = layout.artwork;
  const sentence = `At ${widthMm.toFixed(0)} × ${heightMm.toFixed(0)} mm this picture has ${ppi.toFixed(0)} pixels per inch.`;
  const neededPixels = Math.ceil(mmToPixels(widthMm, modestPpi));
  const supply = `supply it at least ${neededPixels} pixels wide (it has ${artworkPixels.widthPixels})`;
  return ppi < softPpi
    ? [
        {
          code: 'resolution.soft',
          level: 'look',
          title: 'The picture will print soft',
          detail: `${sentence} Below ${softPpi} edges and lettering look soft.`,
          remedy: `Print it smaller, or ${supply}.`,
          value: ppi,
          unit: 'ppi',
        },
      ]
    : [
        {
          code: 'resolution.modest',
          level: 'note',
          title: 'Fine lettering may print a little soft',
          detail: `${sentence} Photographs are fine at that; hairlines want ${modestPpi} or more.`,
          remedy: `If it holds fine lettering, ${supply}.`,
          value: ppi,
          unit: 'ppi',
        },
      ];
}
