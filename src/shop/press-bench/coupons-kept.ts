import type { ContentFiles } from '#shop/files';
import type { CouponSeen } from './coupon-values.js';

/** All that was read from one picture of coupons, kept by its content. */
export interface CouponsKept {
  readonly format: 'dyewright-coupons';
  readonly version: 1;
  readonly coupons: readonly (CouponSeen & { readonly number: number })[];
}

/** Errors: disk.full, disk.failed. */
export async function keepCoupons(files: ContentFiles, coupons: CouponsKept['coupons']): Promise<string> {
  const kept: CouponsKept = { format: 'dyewright-coupons', version: 1, coupons };
  return (await files.keep(new TextEncoder().encode(JSON.stringify(kept)))).hash;
}

/** Errors: file.missing. */
export async function openCoupons(files: ContentFiles, hash: string): Promise<CouponsKept> {
  // Written by this program alone and kept under its hash.
  return JSON.parse(new TextDecoder().decode(await files.bytesOf(hash))) as CouponsKept;
}
