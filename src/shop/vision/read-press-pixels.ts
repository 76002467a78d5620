import { type CouponReading, readCoupon } from '#craft/couponreading';
import { type EvennessReading, readEvenness, type SampledPicture } from '#craft/patchreading';
import { isProblem, type ProblemCode } from '#craft/problem';
import { poseOfSheet } from '#craft/reading';
import type { CouponCode, EvennessSheetOrder } from '#craft/testsheet';
import { planEvennessSheet } from '#craft/testsheet';
import { findCoupons } from './find-coupons.js';
import { findSheet } from './find-sheet.js';
import { GreySource } from './grey.js';
import type { OpenCv } from './open-cv.js';

/** A coupon in the picture, read or not. */
export interface CouponInPicture {
  /** The ladder's id; null when no code could be read. */
  readonly sheetId: string | null;
  /** From its code, else from its cells; null when neither could be read or they contradict each other. */
  readonly number: number | null;
  readonly numberFrom: 'code' | 'cells' | null;
  /** From its code. */
  readonly mirrorOnWriting: boolean | null;
  readonly markersUsed: number;
  readonly reading: CouponReading | null;
  /** Why it could not be read. */
  readonly refusal: Refusal | null;
}

export interface Refusal {
  readonly code: ProblemCode;
  readonly message: string;
  readonly remedy: string;
}

export interface CouponsAnswer {
  readonly coupons: readonly CouponInPicture[];
  readonly strayMarkers: number;
  readonly isSizeUnknown: boolean;
}

export type EvennessAnswer =
  | { readonly kind: 'read'; readonly reading: EvennessReading }
  | { readonly kind: 'no-sheet'; readonly sheetIds: readonly string[] }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

export type CouponSize = Pick<CouponCode, 'widthMm' | 'heightMm' | 'material'>;

/** Every coupon in a decoded picture. */
export function readCouponPixels(
  cv: OpenCv,
  picture: SampledPicture,
  known: CouponSize | null,
): CouponsAnswer {
  const { coupons, strayMarkers, isSizeUnknown } = findCoupons(cv, new GreySource(picture), known);
  return {
    strayMarkers,
    isSizeUnknown,
    coupons: coupons.map(({ pose, layout, code }): CouponInPicture => {
      const facts = {
        sheetId: code?.sheetId ?? null,
        mirrorOnWriting: code?.mirrorOnWriting ?? null,
        markersUsed: pose.markersUsed.length,
      };
      try {
        const reading = readCoupon(picture, layout, pose);
        const { cellNumber } = reading;
        const isContradicted = code !== null && cellNumber !== null && code.number !== cellNumber;
        const number = isContradicted ? null : (code?.number ?? cellNumber);
        const numberFrom = number === null ? null : code ? 'code' : 'cells';
        return { ...facts, number, numberFrom, reading, refusal: null };
      } catch (error) {
        const refusal = refusalOf(error);
        return {
          ...facts,
          number: code?.number ?? null,
          numberFrom: code ? 'code' : null,
          reading: null,
          refusal,
        };
      }
    }),
  };
}

/** An evenness sheet in a decoded picture. @param order what it was made from */
export function readEvennessPixels(
  cv: OpenCv,
  picture: SampledPicture,
  order: EvennessSheetOrder,
): EvennessAnswer {
  const { sheet, ...why } = findSheet(cv, new GreySource(picture));
  if (!sheet) return { kind: 'no-sheet', sheetIds: 'sheetIds' in why ? why.sheetIds : [] };
  const { code, markers, mirrored, anchor } = sheet;
  if (code && code.sheetId !== order.sheetId) return { kind: 'no-sheet', sheetIds: [code.sheetId] };
  try {
    const { layout } = planEvennessSheet(code ? { ...order, variant: code.variant } : order);
    const pose = poseOfSheet(layout.frame, markers, anchor ?? undefined);
    if (!pose || pose.seenMirrored !== mirrored) return { kind: 'no-sheet', sheetIds: [] };
    return { kind: 'read', reading: readEvenness(picture, layout, pose) };
  } catch (error) {
    return { kind: 'refused', refusal: refusalOf(error) };
  }
}

function refusalOf(error: unknown): Refusal {
  if (!isProblem(error)) throw error;
  const { code, message, remedy } = error;
  return { code, message, remedy };
}
