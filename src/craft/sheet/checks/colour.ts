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
          'Print a colour test sheet, press it and scan it, or import an ICC profile made for this printer, ink and paper.',
        value: null,
        unit: null,
      },
    ];
  }
  return [...pathDoubts(colour.pathDoubts), ...unreachable(colour)];
}

function pathDoubts(doubts: SheetUnderCheck['colour']['pathDoubts']): SheetCheck[] {
  if (doubts === undefined || doubts.sentences.length === 0) return [];
  const { isStale, sentences } = doubts;
  return [
    {
      code: isStale ? 'colour.path-stale' : 'colour.path-doubtful',
      level: isStale ? 'look' : 'note',
      title: isStale
        ? 'The colour path no longer fits how this is made'
        : 'The colour path may not quite fit how this is made',
      detail: sentences.join(' '),
      remedy: isStale
        ? 'Print a colour test sheet as things are now, or a check sheet to see how far the colours are off.'
        : 'A check sheet shows how far the colours are off.',
      value: null,
      unit: null,
    },
  ];
}

function unreachable(colour: SheetUnderCheck['colour']): SheetCheck[] {
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
