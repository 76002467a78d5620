import { afterAll, beforeAll, expect, test } from 'vitest';
import { writeCgats } from '#craft/cgats';
import { planColourSheet } from '#craft/testsheet';
import type { Shop } from '#shop';
import { nodeFileSystem } from '#shop/files';
import { keptFiles, newFolder, openTestShop, scratchOf } from '../../../tests/shop/fixture.js';
import { trueRelativeLab } from '../../../tests/shop/printed-chart.js';

const { folder, remove } = newFolder();
let shop: Shop;
let sheetId = '';
let text: Uint8Array;
/** Renames from now on until the disk is full. */
let renamesLeft = Number.POSITIVE_INFINITY;

beforeAll(async () => {
  const fileSystem = {
    ...nodeFileSystem,
    rename: async (from: string, to: string) => {
      renamesLeft -= 1;
      if (renamesLeft < 0) throw Object.assign(new Error('no space'), { code: 'ENOSPC' });
      await nodeFileSystem.rename(from, to);
    },
  };
  ({ shop } = await openTestShop({ folder, fileSystem }));
  const order = { setupId: 'desktop-a4', blankId: 'glass-board-280x390', widthMm: 105, heightMm: 148 };
  const sheet = await shop.testSheets.make(
    { kind: 'colour', ...order, patches: 30, seed: 1 },
    { format: 'png' },
  );
  sheetId = sheet.id;
  const { patches } = planColourSheet((await shop.testSheets.orderOf(sheetId))!).layout;
  text = new TextEncoder().encode(
    writeCgats(
      {
        device: { space: 'RGB', rows: patches.map(({ deviceRgb }) => deviceRgb.map((v) => v / 255)) },
        lab: patches.map(({ deviceRgb }) => trueRelativeLab(deviceRgb)),
        xyz: null,
        spectra: null,
        sdLab: null,
        sampleIds: patches.map((_, i) => String(i + 1)),
        keywords: new Map(),
        remarks: [],
      },
      { originator: 'Virtual instrument (invented)' },
    ),
  );
});
afterAll(async () => {
  await shop.close();
  remove();
});

const take = () => shop.readings.importFile(text, { sheetId, fileName: 'measured.txt' });

test.each([0, 1])('a disk that is full after %i files keeps nothing of a reading', async (files) => {
  const before = keptFiles(folder).sort();
  renamesLeft = files;
  await expect(take()).rejects.toMatchObject({ code: 'disk.full' });
  renamesLeft = Number.POSITIVE_INFINITY;
  expect(keptFiles(folder).sort()).toEqual(before);
  expect(scratchOf(folder)).toEqual([]);
  expect(await shop.readings.list()).toEqual([]);
});

test.each([0, 1])('a disk that is full after %i files keeps nothing of a test sheet', async (files) => {
  const before = keptFiles(folder).sort();
  const sheets = await shop.testSheets.list();
  const order = { kind: 'grey', setupId: 'desktop-a4', blankId: 'glass-board-280x390' };
  renamesLeft = files;
  await expect(shop.testSheets.make(order, { format: 'png' })).rejects.toMatchObject({ code: 'disk.full' });
  renamesLeft = Number.POSITIVE_INFINITY;
  expect(keptFiles(folder).sort()).toEqual(before);
  expect(scratchOf(folder)).toEqual([]);
  expect(await shop.testSheets.list()).toEqual(sheets);
});

test('two readings of one file share content; the one that stays keeps it, whatever order they come and go', async () => {
  const [one, other] = await Promise.all([take(), take()]);
  expect(other.patchesHash).toBe(one.patchesHash);
  const [, third] = await Promise.all([shop.readings.remove(one.id), take()]);
  await shop.readings.remove(other.id);
  expect(await shop.readings.patches(third.id)).toHaveLength(
    (await shop.readings.tableOf(third.id)).device.rows.length,
  );
  await shop.readings.remove(third.id);
  expect(keptFiles(folder)).not.toContain(third.patchesHash);
});
