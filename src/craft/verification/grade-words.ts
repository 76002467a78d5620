import type { ErrorFigures, ErrorGrounds } from './join-errors.js';

export type GradeLetter = 'A' | 'B' | 'C' | 'D' | 'E';
const letters = ['A', 'B', 'C', 'D', 'E'] as const;

/** How colours of this grade were come by. */
export const gradeMeanings: Readonly<Record<GradeLetter, string>> = {
  A: 'measured by an instrument',
  B: 'read by a calibrated reader',
  C: 'read from a photo with a reference card',
  D: "read by the reader's own tag",
  E: 'judged by eye',
};

/** A chain is as good as its worst link. */
export const worstGrade = (grades: readonly GradeLetter[]): GradeLetter =>
  letters[Math.max(0, ...grades.map((grade) => letters.indexOf(grade)))]!;

/**
 * Reading errors to expect where a file tells its grade and no more, mean and 95 %, ΔE00: what the maps of craft/reader
 * say of themselves in the usual case (docs/decisions/0009), E by what virtual
 * printers came to (4.5 to 12.8, 95 % within 15 to 29). An instrument's own error is left out of account, as with files that come from one.
 */
export const gradeErrors: Readonly<Record<GradeLetter, (ErrorFigures & { restsOn: ErrorGrounds }) | null>> = {
  A: null,
  B: { meanDeltaE00: 2, p95DeltaE00: 4.5, restsOn: 'rule-of-thumb' },
  C: { meanDeltaE00: 5, p95DeltaE00: 9, restsOn: 'rule-of-thumb' },
  D: { meanDeltaE00: 9.5, p95DeltaE00: 16.5, restsOn: 'rule-of-thumb' },
  E: { meanDeltaE00: 12, p95DeltaE00: 27, restsOn: 'rule-of-thumb' },
};

/** 'grade B, within 1.6 ΔE00 on average' */
export function trustPhrase(grade: GradeLetter, error: ErrorFigures): string {
  return `grade ${grade}, within ${error.meanDeltaE00.toFixed(1)} ΔE00 on average`;
}
