import type { ColourPath } from '#contract';
import { deltaText, differenceWords, gradeMeanings, gradeText, restsOnNames } from '../words/index.js';

/** How far a path can be trusted: one sentence, then what it rests on. */
export function standingWords(path: Pick<ColourPath, 'origin' | 'measurement' | 'description'>): {
  sentence: string;
  more: string[];
} {
  const { measurement } = path;
  if (!measurement) {
    return {
      sentence: 'A profile from elsewhere: how near colours come is not known here.',
      more: ['A small check sheet, printed through it and read back, would tell.'],
    };
  }
  const { grade, expectedError } = measurement;
  const mean = expectedError.meanDeltaE00;
  const byEye = path.origin === 'by-eye';
  return {
    sentence: byEye
      ? `Greys were judged by eye; other colours may be ${deltaText(mean)} off on average.`
      : `Colours come out within ${deltaText(mean)} on average; that is ${differenceWords(mean)}.`,
    more: [
      `Grade ${gradeText(grade)}. ${gradeMeanings[grade]}`,
      `95\u00a0% of colours within ${deltaText(expectedError.p95DeltaE00)}; ${restsOnNames[expectedError.restsOn]}.${byEye ? '' : ' What changes from one print to the next comes on top.'}`,
    ],
  };
}
