import type { MeasurementTable } from './types.js';

/** Where a table's colours come from, as this program writes it into the file's head. */
export interface Provenance {
  readonly grade: 'A' | 'B' | 'C' | 'D' | 'E';
  /** How far the colours are expected to lie from the true ones, mean and 95 %, ΔE00. */
  readonly expectedError?:
    | { readonly meanDeltaE00: number; readonly p95DeltaE00: number; readonly restsOn: string }
    | undefined;
  readonly sheetId?: string | undefined;
  readonly reader?: string | undefined;
}

/** Keywords for `writeCgats`. */
export function provenanceKeywords(from: Provenance): Record<string, string> {
  const { grade, expectedError, sheetId, reader } = from;
  return {
    DYEWRIGHT_GRADE: grade,
    ...(expectedError === undefined
      ? {}
      : {
          DYEWRIGHT_ERROR_MEAN: expectedError.meanDeltaE00.toFixed(3),
          DYEWRIGHT_ERROR_P95: expectedError.p95DeltaE00.toFixed(3),
          DYEWRIGHT_ERROR_RESTS_ON: expectedError.restsOn,
        }),
    ...(sheetId === undefined ? {} : { DYEWRIGHT_SHEET: sheetId }),
    ...(reader === undefined ? {} : { DYEWRIGHT_READER: reader }),
  };
}

/** What a file says of its colours' origin; null when it does not say. */
export function provenanceOf({ keywords }: Pick<MeasurementTable, 'keywords'>): Provenance | null {
  const grade = keywords.get('DYEWRIGHT_GRADE')?.trim().toUpperCase();
  if (!isGrade(grade)) return null;
  const mean = Number(keywords.get('DYEWRIGHT_ERROR_MEAN') ?? Number.NaN);
  const p95 = Number(keywords.get('DYEWRIGHT_ERROR_P95') ?? Number.NaN);
  const plausible = mean >= 0 && mean < 100 && p95 >= mean && p95 < 200;
  return {
    grade,
    expectedError: plausible
      ? {
          meanDeltaE00: mean,
          p95DeltaE00: p95,
          restsOn: keywords.get('DYEWRIGHT_ERROR_RESTS_ON') ?? 'rule-of-thumb',
        }
      : undefined,
    sheetId: keywords.get('DYEWRIGHT_SHEET'),
    reader: keywords.get('DYEWRIGHT_READER'),
  };
}

/**
 * Whether a table without a word on its origin looks like an instrument's: spectra, or a CGATS head that says who made it
 * or how the colours were weighted. A bare table of numbers could have come from anywhere.
 */
export function looksLikeInstrument({ keywords, spectra }: MeasurementTable): boolean {
  const heads = ['INSTRUMENTATION', 'INSTRUMENT', 'MEASUREMENT_SOURCE', 'MEASUREMENT_GEOMETRY', 'ORIGINATOR'];
  return spectra !== null || [...heads, 'WEIGHTING_FUNCTION'].some((name) => keywords.has(name));
}

const isGrade = (word: string | undefined): word is Provenance['grade'] =>
  word !== undefined && /^[A-E]$/.test(word);
