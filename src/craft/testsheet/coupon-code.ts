import { Problem } from '#craft/problem';
import { isSheetId } from '#craft/sheet';
import { mostCoupons } from './coupon-number.js';
import type { SheetMaterial } from './types.js';

/** What the square code on a coupon says: enough to know it and where everything on it stands, without any record. */
export interface CouponCode {
  /** The ladder sheet's id; all its coupons bear it. */
  readonly sheetId: string;
  /** 1 to 16. */
  readonly number: number;
  readonly mirrorOnWriting: boolean;
  readonly material: SheetMaterial;
  readonly widthMm: number;
  readonly heightMm: number;
}

const prefix = 'DYEWRIGHT:C:';
const pattern = /^DYEWRIGHT:C:([0-9A-Z]{10}):([MN])([HF])([0-9A-F])([0-9A-Z]{4})([0-9A-Z]{4})$/;

/**
 * `DYEWRIGHT:C:<sheet id>:<M mirrored | N not><H hard | F fabric><number − 1, base 16><width><height>`, sizes in
 * hundredths of a millimetre in base 36. 34 characters, all of QR's alphanumeric set: they fit where a sheet's code does.
 *
 * @throws Problem `request.invalid` for an id, number or size that cannot be
 */
export function writeCouponCode(code: CouponCode): string {
  const { sheetId, number, mirrorOnWriting, material, widthMm, heightMm } = code;
  const sizes = [widthMm, heightMm].map((mm) => Math.round(mm * 100));
  const isPossible =
    isSheetId(sheetId) &&
    Number.isInteger(number) &&
    number >= 1 &&
    number <= mostCoupons &&
    sizes.every((size) => size > 0 && size < 36 ** 4);
  if (!isPossible) {
    throw new Problem('request.invalid', 'Such a coupon cannot be marked.', {
      remedy: `Number coupons from 1 to ${mostCoupons} and make them smaller than 16 metres.`,
    });
  }
  const size = sizes.map((v) => v.toString(36).toUpperCase().padStart(4, '0')).join('');
  const letters = `${mirrorOnWriting ? 'M' : 'N'}${material === 'fabric' ? 'F' : 'H'}`;
  return `${prefix}${sheetId}:${letters}${(number - 1).toString(16).toUpperCase()}${size}`;
}

/** The other way round; null when the text is not a coupon's. */
export function readCouponCode(text: string): CouponCode | null {
  const match = pattern.exec(text);
  if (!match) return null;
  const [, sheetId = '', written, cloth, number = '', width = '', height = ''] = match;
  if (!isSheetId(sheetId)) return null;
  return {
    sheetId,
    number: parseInt(number, 16) + 1,
    mirrorOnWriting: written === 'M',
    material: cloth === 'F' ? 'fabric' : 'hard',
    widthMm: parseInt(width, 36) / 100,
    heightMm: parseInt(height, 36) / 100,
  };
}
