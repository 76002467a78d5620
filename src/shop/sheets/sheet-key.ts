import { createHash } from 'node:crypto';
import type { Blank, PrintSetup, SheetOutputOptions, SheetRequest } from '#contract';
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

function newSheetId(digest: Uint8Array): string {
  return [...digest.subarray(0, 10)].map((byte) => '0123456789ABCDEFGHJKMNPQRSTVWXYZ'[byte & 31]).join('');
}
