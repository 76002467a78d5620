import { type ReadBack, readBackSubjectSchema } from '#contract';
import type { Records } from '#shop/store';
import { checked } from '#shop/validate';
import { readSheetPicture, refuseCoupons } from '#shop/vision';

const cornersOfSheet = 4;

/**
 * What a picture of a printed sheet, or of a piece with its marks, tells. `source` is a path or the file's bytes.
 * Errors: request.invalid, scan.no-marks, scan.wrong-sheet for coupons of a ladder, image.unreadable, image.wrong-type, image.too-large, file.missing.
 */
export async function readBack(
  records: Records,
  source: string | Uint8Array,
  subjectValue: unknown,
  options: { pixelLimit: number; signal?: AbortSignal | undefined },
): Promise<ReadBack> {
  const subject = checked(
    readBackSubjectSchema,
    subjectValue,
    'What the picture shows is “paper” or “piece”',
  );
  const reading = await readSheetPicture(source, { subject, ...options });
  const { sheetId } = reading;
  // More corner marks than one sheet has: pieces of several, such as the coupons of a ladder cut apart.
  if (sheetId === null && reading.markersFound > cornersOfSheet) {
    const refusal = await refuseCoupons(source, options);
    if (refusal !== null) throw refusal;
  }
  const record = sheetId === null ? undefined : await records.sheets.get(sheetId);
  const test = sheetId === null ? undefined : await records.testSheets.get(sheetId);
  const about =
    record !== undefined
      ? `It is the sheet ${record.id}: ${record.artworkName} on ${record.blankName}.`
      : test !== undefined
        ? `It is the test sheet ${test.id}, for ${test.blankName}.`
        : sheetId !== null
          ? `It is the sheet ${sheetId}, which this shop has no record of.`
          : null;
  return {
    ...reading,
    sheetKnown: record !== undefined,
    isTestSheet: test !== undefined,
    sentences: [...reading.sentences, ...(about === null ? [] : [about])],
  };
}
