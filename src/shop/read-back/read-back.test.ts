import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, expect, it } from 'vitest';
import type { Records } from '#shop/store';
import { closeVision } from '#shop/vision';
import { readBack } from './read-back.js';

afterAll(closeVision);

it('coupons cut from a ladder’s sheet are told as such, not as a sheet mirrored wrongly', async () => {
  const scan = await readFile(path.resolve(import.meta.dirname, '../../../examples/ladder-scan.jpg'));
  const none = { get: async () => undefined };
  const records = { sheets: none, testSheets: none } as unknown as Records;
  await expect(readBack(records, scan, 'paper', { pixelLimit: 1e9 })).rejects.toMatchObject({
    code: 'scan.wrong-sheet',
    message: expect.stringMatching(/^These are coupons of ladder SXHDA EX98T/),
  });
});
