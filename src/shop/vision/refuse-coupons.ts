import { isProblem, Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';
import { defaultPixelLimit } from './read-chart-picture.js';
import { readCouponsPicture } from './read-press-picture.js';

/**
 * What to throw when a picture meant to show another kind of sheet shows coupons of a ladder; null when no coupon's code can
 * be read in it.
 *
 * @throws Problem `image.*`, `file.missing`, `job.cancelled`
 */
export async function refuseCoupons(
  source: string | Uint8Array,
  {
    pixelLimit = defaultPixelLimit,
    signal,
  }: { readonly pixelLimit?: number | undefined; readonly signal?: AbortSignal | undefined } = {},
): Promise<Problem | null> {
  try {
    const { coupons } = await readCouponsPicture(source, { pixelLimit, signal });
    const sheetId = coupons.find((one) => one.sheetId !== null)?.sheetId;
    if (sheetId == null) return null;
    return new Problem(
      'scan.wrong-sheet',
      `These are coupons of ladder ${spokenSheetId(sheetId)}: they tell of the press.`,
      { remedy: 'Read them as a ladder: under Press, or with: dyewright ladder read.' },
    );
  } catch (error) {
    if (isProblem(error) && error.code.startsWith('scan.')) return null;
    throw error;
  }
}
