import type { EvennessSheetOrder } from '#craft/testsheet';
import { threadWork } from '#shop/threads';
import { openChartPicture } from './open-chart-picture.js';
import { loadOpenCv } from './open-cv.js';
import {
  type CouponSize,
  type CouponsAnswer,
  type EvennessAnswer,
  readCouponPixels,
  readEvennessPixels,
} from './read-press-pixels.js';

export type PressTask = { readonly source: string | Uint8Array; readonly pixelLimit: number } & (
  | { readonly what: 'coupons'; readonly known: CouponSize | null }
  | { readonly what: 'evenness'; readonly order: EvennessSheetOrder }
);

export interface PressDone {
  readonly coupons: CouponsAnswer | null;
  readonly evenness: EvennessAnswer | null;
  readonly curve: 'profile' | 'srgb';
  readonly remarks: readonly string[];
}

/** A worker thread's whole work: one picture of coupons or of an evenness sheet, from its file. */
export default threadWork(async (task: PressTask): Promise<PressDone> => {
  const [{ picture, curve, remarks }, { cv }] = await Promise.all([
    openChartPicture(task.source, task.pixelLimit),
    loadOpenCv(),
  ]);
  return {
    coupons: task.what === 'coupons' ? readCouponPixels(cv, picture, task.known) : null,
    evenness: task.what === 'evenness' ? readEvennessPixels(cv, picture, task.order) : null,
    curve,
    remarks,
  };
});
