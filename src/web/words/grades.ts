import type { ColourPath, ExpectedErrorFacts, Grade } from '#contract';

/** What a grade rests on, in two or three words to stand beside the letter. */
export const gradeNames: Record<Grade, string> = {
  A: 'instrument',
  B: 'calibrated scanner',
  C: 'photo with a card',
  D: 'scan as it came',
  E: 'by eye',
};

/** 'B · calibrated scanner': to be understood without a legend. */
export const gradeText = (grade: Grade): string => `${grade} · ${gradeNames[grade]}`;

/** A colour difference with its unit; one decimal is finer than any eye. */
export const deltaText = (deltaE00: number): string => `${deltaE00.toFixed(1)}\u00a0ΔE00`;

/** 'about 1.4 ΔE00 on average, 95 % of colours within 2.8' */
export const expectedErrorText = (error: ExpectedErrorFacts): string =>
  `about ${deltaText(error.meanDeltaE00)} on average, 95\u00a0% of colours within ${error.p95DeltaE00.toFixed(1)}`;

export const restsOnNames: Record<ExpectedErrorFacts['restsOn'], string> = {
  measured: 'told from the patches themselves',
  calibration: 'told from the patches and from the reader’s calibration, tried on patches left out of it',
  published: 'taken from figures published and simulated for readers of this kind, not from yours',
  'rule-of-thumb': 'a rule of thumb: common practice, nothing measured here',
};

/** How far a path can be trusted, in one phrase for lists: grade and expected error, or that nobody measured it. */
export function trustText(path: Pick<ColourPath, 'origin' | 'measurement'>): string {
  if (!path.measurement) return 'imported profile, not checked here';
  const { grade, expectedError } = path.measurement;
  return `${gradeText(grade)}, ${deltaText(expectedError.meanDeltaE00)} on average`;
}

/** What the grade allows one to rely on. */
export const gradeMeanings: Record<Grade, string> = {
  A: 'An instrument measured the colours themselves. There is no better grade.',
  B: 'They were read by a scanner or phone that had been taught the true colours of pressed patches.',
  C: 'They were read from a photo, put right by a card of known colours in the same picture.',
  D: 'The scanner’s or phone’s own colours were taken at their word, with the bare ground as white. Greys and differences are better than absolute colours.',
  E: 'Greys and contrast were picked by eye beside a grey card. Strong colours are not measured.',
};

/** The colour path of a print setup beside its other facts: its name and how far it can be trusted. */
export function pathText(
  pathId: string | null,
  paths: readonly Pick<ColourPath, 'id' | 'name' | 'origin' | 'measurement'>[] | undefined,
): string {
  if (pathId === null) return 'Colour not calibrated';
  const path = paths?.find((one) => one.id === pathId);
  return path ? `Colour by “${path.name}”: ${trustText(path)}` : 'Colour path known';
}
