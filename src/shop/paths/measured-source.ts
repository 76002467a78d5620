import type { ExpectedErrorFacts, Grade } from '#contract';
import { type MeasurementTable, statedGrade } from '#craft/cgats';
import { gradeErrors, gradeMeanings } from '#craft/verification';

/** One reading, or one file of measurements, that a path is learnt from. */
export interface MeasuredSource {
  readonly table: MeasurementTable;
  readonly grade: Grade;
  /** How far the colours read are expected to lie from the true ones; null: no more than the patches themselves show. */
  readonly error: ExpectedErrorFacts | null;
  readonly readingId: string | null;
}

/**
 * A file of measurements with the grade it states. One that states none is taken for an instrument's, since colours (not
 * pixels) come from little else, and that is said.
 * @param stated grade that a person gives, whatever the file says
 */
export function sourceOfFile(table: MeasurementTable, stated?: Grade): MeasuredSource {
  const said = statedGrade(table);
  if (stated !== undefined && stated !== said?.grade) {
    return withRemark(table, stated, `Grade ${stated} was given by hand (${gradeMeanings[stated]}).`);
  }
  if (said !== null) return { table, grade: said.grade, error: statedError(said), readingId: null };
  return withRemark(
    table,
    'A',
    'The file does not say how it was measured: it is taken for an instrument’s. If a scanner or phone gave the colours, state their grade.',
  );
}

/** An instrument's own error is left out of account, as it is for files that come straight from one. */
function statedError(said: NonNullable<ReturnType<typeof statedGrade>>): ExpectedErrorFacts | null {
  const { grade, meanDeltaE00, p95DeltaE00 } = said;
  const thumb = gradeErrors[grade];
  if (thumb === null || meanDeltaE00 === null || p95DeltaE00 === null) return thumb;
  // Calibrations are tested where they are made; what the lower grades state rests on others' figures.
  return { meanDeltaE00, p95DeltaE00, restsOn: grade === 'B' ? 'calibration' : 'published' };
}

function withRemark(table: MeasurementTable, grade: Grade, remark: string): MeasuredSource {
  return {
    table: { ...table, remarks: [...table.remarks, remark] },
    grade,
    error: gradeErrors[grade],
    readingId: null,
  };
}
