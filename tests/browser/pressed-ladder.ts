import type { APIRequestContext } from '@playwright/test';
import { closeVision, readCouponsPicture } from '#shop/vision';
import { chanceOf, toFile, writtenSheet } from '../simulator/index.js';
import { cutCoupon, pressedAt, scanOfCoupons } from '../simulator/pressed-coupons.js';
import { expect } from './shop.js';

interface PlannedLadder {
  readonly id: string;
  readonly ppi: number;
  readonly ladder: {
    readonly coupons: readonly {
      readonly number: number;
      readonly step: { readonly platenC: number; readonly dwellSeconds: number };
    }[];
  };
  readonly files: readonly { readonly kind: string; readonly fileName: string }[];
}

/** A ladder's sheet made through the HTTP calls. */
export async function madeLadder(
  request: APIRequestContext,
  order: Record<string, unknown>,
): Promise<PlannedLadder> {
  const started = await request.post('/api/test-sheets', {
    data: { order: { kind: 'ladder', ...order }, output: { format: 'png' } },
  });
  expect(started.status()).toBe(202);
  let job = (await started.json()) as { id: string; state: string; resultId: string };
  await expect
    .poll(
      async () => {
        job = await (await request.get(`/api/jobs/${job.id}`)).json();
        return job.state;
      },
      { timeout: 60_000 },
    )
    .toBe('done');
  return (await request.get(`/api/test-sheets/${job.resultId}`)).json();
}

/**
 * Its coupons cut apart, each pressed as planned by a simulated press of a kind of its own, and laid anyhow on a
 * simulated scanner: PNG files of so many coupons each.
 */
export async function scansOf(
  request: APIRequestContext,
  sheet: PlannedLadder,
  couponsEach = 16,
): Promise<Buffer[]> {
  const file = sheet.files.find(({ kind }) => kind === 'sheet');
  const bytes = await (
    await request.get(`/api/test-sheets/${sheet.id}/files/${encodeURIComponent(file?.fileName ?? '')}`)
  ).body();
  const written = await readCouponsPicture(bytes);
  const paper = await writtenSheet(bytes, sheet.ppi);
  await closeVision();
  const pieces = sheet.ladder.coupons.map(({ number, step }) => {
    const found = written.coupons.find((one) => one.number === number);
    if (!found?.reading) throw new Error(`Coupon ${number} is not on the sheet.`);
    return pressedAt(cutCoupon(paper, found.reading.outline), step);
  });
  const scans: Buffer[] = [];
  for (let i = 0; i < pieces.length; i += couponsEach) {
    const picture = scanOfCoupons(pieces.slice(i, i + couponsEach), chanceOf(70 + i), 40 + i);
    scans.push(await toFile(picture, { format: 'png', ppi: paper.ppi }));
  }
  return scans;
}
