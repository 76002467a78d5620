import type { MeasurementTable } from './types.js';

/** How the colours of a table were come by, as the contract's grades have it. */
export type StatedGrade = 'A' | 'B' | 'C' | 'D' | 'E';

/** What our own tables say of themselves beside the colours. */
export interface ReadingFacts {
  readonly grade: StatedGrade;
  /** Expected CIEDE2000 from the true colours, mean and 95 %. */
  readonly meanDeltaE00: number;
  readonly p95DeltaE00: number;
  /** Left out where several sheets made the table. */
  readonly sheetId?: string | undefined;
  /** The scanner or phone, by its name in the shop. */
  readonly reader?: string | undefined;
  /** paper, or the pressed piece. */
  readonly subject?: string | undefined;
}

const names = {
  grade: 'DYEWRIGHT_GRADE',
  error: 'DYEWRIGHT_EXPECTED_DELTA_E00',
  sheetId: 'DYEWRIGHT_TEST_SHEET',
  reader: 'DYEWRIGHT_READER',
  subject: 'DYEWRIGHT_SUBJECT',
} as const;

/** CGATS.17 lets a file bring keywords of its own; ours say what its colours are worth. */
export function readingKeywords(facts: ReadingFacts): Record<string, string> {
  return {
    [names.grade]: facts.grade,
    [names.error]: `${facts.meanDeltaE00.toFixed(2)} ${facts.p95DeltaE00.toFixed(2)}`,
    ...(facts.sheetId === undefined ? {} : { [names.sheetId]: facts.sheetId }),
    ...(facts.reader === undefined ? {} : { [names.reader]: facts.reader }),
    ...(facts.subject === undefined ? {} : { [names.subject]: facts.subject }),
  };
}

/** What a table says of its grade; null where it says nothing, as instruments' own files. */
export function statedGrade(table: Pick<MeasurementTable, 'keywords'>): {
  readonly grade: StatedGrade;
  readonly meanDeltaE00: number | null;
  readonly p95DeltaE00: number | null;
} | null {
  const said = table.keywords.get(names.grade);
  if (said === undefined) return null;
  // A grade that cannot be understood is not taken for a good one.
  const grade = (['A', 'B', 'C', 'D', 'E'] as const).find((one) => one === said.trim().toUpperCase()) ?? 'D';
  const [mean, p95] = (table.keywords.get(names.error) ?? '').split(' ').map(Number);
  const sound = (v: number | undefined): number | null =>
    v !== undefined && Number.isFinite(v) && v > 0 ? v : null;
  return { grade, meanDeltaE00: sound(mean), p95DeltaE00: sound(p95) };
}

/** The test sheet a table says its patches are of; null where it says nothing. */
export const statedSheetId = (table: Pick<MeasurementTable, 'keywords'>): string | null =>
  table.keywords.get(names.sheetId) ?? null;
