import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/** Shares of the picture from which unreachable colours are worth a note, and worth an eye (ours, no source). */
const noteShare = 0.005;
const lookShare = 0.05;

/** How far the colour can be trusted: no path at all, or colours the path does not reach. */
export function checkColour({ colour }: SheetUnderCheck): SheetCheck[] {
  if (!colour.calibrated) {
    return [
      {
        code: 'colour.not-calibrated',
        level: 'note',
        title: 'Colour is not calibrated',
        detail:
          'This print setup has no colour path: pixels pass as sRGB and the pressed colours are a guess.',
        remedy:
          'Import an ICC profile made for this printer, ink and paper, and choose it in the print setup.',
        value: null,
        unit: null,
      },
    ];
  }
  const share = colour.unreachableShare;
  if (share === null || share < noteShare) return [];
  const percent = share * 100;
  const threshold =
    colour.thresholdDeltaE00 === null
      ? ''
      : ` They come out more than ${colour.thresholdDeltaE00} ΔE00 away, a difference that is plain to see.`;
  return [
    {
      code: 'colour.unreachable',
      level: share >= lookShare ? 'look' : 'note',
      title: 'Some colours are beyond this print setup',
      detail:
        `About ${percent < 10 ? percent.toFixed(1) : percent.toFixed(0)} % of the picture is in colours ` +
        `this colour path cannot reach.${threshold}`,
      remedy: 'Look at the map of those colours and their nearest; if one matters, change it in the artwork.',
      value: percent,
      unit: '%',
    },
  ];
}
