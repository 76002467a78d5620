import type { Ladder, LadderCoupon, LadderPicture, TestSheet } from '#contract';
import type { CouponSeen } from './coupon-values.js';
import type { CouponsKept } from './coupons-kept.js';
import { differing } from './differing.js';
import { listed } from './words.js';

/** A ladder of which nothing is known but its plan. `null`: the sheet is no ladder. */
export function emptyLadder(sheet: TestSheet): Ladder | null {
  const plan = sheet.ladder;
  if (plan === null) return null;
  return {
    sheetId: sheet.id,
    setupName: sheet.setupName,
    blankId: sheet.order.blankId,
    blankName: sheet.blankName,
    plan,
    coupons: plan.coupons.map((coupon) => ({
      ...coupon,
      pressed: null,
      values: null,
      byEye: null,
      pictureId: null,
      seenHex: [],
      leftOut: false,
      remarks: [],
    })),
    pictures: [],
    standing: '',
    window: null,
    missing: null,
    updatedAt: sheet.createdAt,
    demo: sheet.demo,
  };
}

/** A picture of a ladder with all that was read from it; oldest first where there are several. */
export interface PictureRead {
  readonly picture: LadderPicture;
  readonly read: CouponsKept['coupons'];
}

/**
 * Each coupon takes its values from the newest picture of pressed pieces that shows it. They are not averaged: a coupon
 * scanned again was scanned again for a reason, and the scatter of pressing is larger than that of scanning.
 */
export function withPictures(ladder: Ladder, pictures: readonly PictureRead[]): Ladder {
  const pressed = pictures.filter(({ picture }) => picture.surface === 'piece');
  return {
    ...ladder,
    pictures: pictures.map(({ picture }) => picture),
    coupons: ladder.coupons.map((coupon): LadderCoupon => {
      const shown = pressed.flatMap(({ picture, read }) => {
        const seen = read.find(({ number }) => number === coupon.number);
        return seen ? [{ picture, seen }] : [];
      });
      const newest = shown.at(-1);
      const before = shown.at(-2);
      if (newest === undefined) return { ...coupon, values: null, pictureId: null, seenHex: [], remarks: [] };
      const { picture, seen } = newest;
      return {
        ...coupon,
        values: seen.values,
        pictureId: picture.id,
        seenHex: [...seen.seenHex],
        remarks: [...seen.remarks, ...(before ? changedRemark(before, newest) : [])],
      };
    }),
  };
}

interface Shown {
  readonly picture: LadderPicture;
  readonly seen: CouponSeen;
}

function changedRemark(before: Shown, newest: Shown): string[] {
  const names = differing(before.seen.values, newest.seen.values);
  if (names.length === 0) return [];
  return [
    `“${newest.picture.fileName}” says another ${listed(names)} than “${before.picture.fileName}” did; the newer one counts. Look whether they show the same coupon.`,
  ];
}
