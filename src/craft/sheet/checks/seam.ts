import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/** Whether the printed bleed of a wrap reaches over the gap that was left for the handle or the seam. */
export function checkSeam({ blank, bleedMm }: SheetUnderCheck): SheetCheck[] {
  if (blank.shape.kind !== 'cylinder') return [];
  const gapMm = blank.shape.gapMm ?? 0;
  // Two ends, each longer by the bleed, share the gap.
  const overMm = 2 * bleedMm - gapMm;
  if (overMm <= 0) return [];
  const handle = blank.shape.handle === true;
  return [
    {
      code: 'seam.overlap',
      level: 'look',
      title: handle ? 'The bleed runs over the handle' : 'The ends of the wrap print over each other',
      detail:
        `A bleed of ${bleedMm} mm at both ends covers the gap of ${gapMm} mm` +
        (overMm > 0.05 ? ` and ${overMm.toFixed(1)} mm more.` : '.') +
        (handle
          ? ' The paper cannot lie flat at the handle.'
          : ' Where they meet the colour presses double.'),
      remedy: `Set the bleed to ${(gapMm / 2).toFixed(1)} mm or less, or cut the paper at the trim marks.`,
      value: overMm,
      unit: 'mm',
    },
  ];
}
