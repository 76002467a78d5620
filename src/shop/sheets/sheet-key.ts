import { createHash } from 'node:crypto';
import type { Blank, PrintSetup, SheetOutputOptions, SheetRequest } from '#contract';
import { newSheetId } from '#craft/sheet';
import { canonicalJson } from '#shop/store';

/** Raise when the same inputs would give other pixels than before, so that a new sheet gets a new id. */
const makingVersion = 1;

/**
 * A sheet is a pure function of what it is made from, so its id comes from a digest of that: asking for the
 * same sheet twice is the same sheet, and a preview bears the id the sheet will have.
 */
export function sheetIdFor(from: {
  request: SheetRequest;
  output: SheetOutputOptions;
  blank: Blank;
  setup: PrintSetup;
  iccHash: string | null;
}): string {
  const digest = createHash('sha256')
    .update(canonicalJson({ makingVersion, ...from }))
    .digest();
  return newSheetId(digest);
}
