import qrcode from 'qrcode-generator';
import { Problem } from '#craft/problem';
import { type FrameVariant, frameVariantLetters } from './frame-variant.js';
import type { Mark, RectMm } from './plan.js';
import { isSheetId } from './sheet-id.js';

/** What the QR code says: enough to know the sheet and where its marks stand, without any record. */
export interface SheetCode {
  readonly sheetId: string;
  /** The file was written mirrored. */
  readonly mirrorOnWriting: boolean;
  readonly variant: FrameVariant;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
}

/** ISO/IEC 18004: version 2 has 25 modules a side and holds 38 alphanumeric characters at level M. */
export const qrModules = 25;
const qrVersion = 2;

const prefix = 'DYEWRIGHT:1:';

/**
 * `DYEWRIGHT:1:<sheet id>:<M mirrored | N not>:<frame letter><width><height><margin>`, sizes in hundredths of a
 * millimetre in base 36 (4, 4 and 3 characters). 37 characters, all of QR's alphanumeric set.
 */
export function writeSheetCode(code: SheetCode): string {
  if (!isSheetId(code.sheetId)) {
    throw new Problem('request.invalid', `“${code.sheetId}” is not a sheet id.`, {
      remedy: 'Give the ten characters as printed on the sheet.',
    });
  }
  const size = hundredths(code.widthMm, 4) + hundredths(code.heightMm, 4) + hundredths(code.marginMm, 3);
  const written = code.mirrorOnWriting ? 'M' : 'N';
  return `${prefix}${code.sheetId}:${written}:${frameVariantLetters[code.variant]}${size}`;
}

/** The other way round; null when the text is not ours or does not agree with itself. */
export function readSheetCode(text: string): SheetCode | null {
  const match = /^DYEWRIGHT:1:([0-9A-Z]{10}):([MN]):([A-Z])([0-9A-Z]{4})([0-9A-Z]{4})([0-9A-Z]{3})$/.exec(
    text,
  );
  if (!match) return null;
  const [, sheetId = '', written, letter, width = '', height = '', margin = ''] = match;
  const variant = (Object.keys(frameVariantLetters) as FrameVariant[]).find(
    (name) => frameVariantLetters[name] === letter,
  );
  if (!variant || !isSheetId(sheetId)) return null;
  return {
    sheetId,
    mirrorOnWriting: written === 'M',
    variant,
    widthMm: parseInt(width, 36) / 100,
    heightMm: parseInt(height, 36) / 100,
    marginMm: parseInt(margin, 36) / 100,
  };
}

/** The QR code of a text of ours as cells. @throws Problem when the text does not fit. */
export function qrMark(text: string, rect: RectMm): Mark {
  const code = qrcode(qrVersion, 'M');
  code.addData(text, 'Alphanumeric');
  code.make();
  const cells: boolean[] = [];
  for (let row = 0; row < qrModules; row += 1) {
    for (let column = 0; column < qrModules; column += 1) cells.push(code.isDark(row, column));
  }
  return { kind: 'cells', rect, columns: qrModules, rows: qrModules, cells, role: 'identity' };
}

function hundredths(mm: number, characters: number): string {
  const text = Math.round(mm * 100)
    .toString(36)
    .toUpperCase()
    .padStart(characters, '0');
  if (!(mm >= 0) || text.length > characters) {
    throw new Problem('sheet.impossible', 'The sheet is too large to be marked.', {
      remedy: 'Use a sheet shorter than 16 metres.',
    });
  }
  return text;
}
