import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { pressSchema } from '#contract';
import { migrations, openDatabase, Records } from './index.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'dyewright-store-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const press = pressSchema.parse({
  id: 'flat',
  name: 'Flat',
  kind: 'flat',
  platenWidthMm: 380,
  platenDepthMm: 380,
});
const hash = 'b'.repeat(64);

test('a shop that measures gets the tables of the press, and keeps what it had', async () => {
  const older = { '0001-first': migrations['0001-first']!, '0002-measuring': migrations['0002-measuring']! };
  const before = await openDatabase(folder, older);
  const sheet = { id: 's', kind: 'colour', createdAt: '2026-01-01' } as never;
  await new Records(before.db).testSheets.put(sheet, { blank: 1 } as never, { chart: null });
  await before.close();

  const { db, close } = await openDatabase(folder);
  const records = new Records(db);
  expect(await records.testSheets.plan('s')).toEqual({ chart: null });
  expect(await records.presses.list()).toEqual([]);
  await records.presses.put(press, '2026');
  expect(await records.presses.get('flat')).toEqual(press);
  await close();
});

test('checks go with their press; ladders and readings of evenness stay', async () => {
  const { db, close } = await openDatabase(folder);
  const records = new Records(db);
  await records.presses.put(press, '2026');
  for (const [id, createdAt] of [
    ['c', '2026-01'],
    ['d', '2026-02'],
  ])
    await records.platenChecks.put({ id, pressId: 'flat', createdAt } as never);
  expect((await records.platenChecks.list('flat')).map(({ id }) => id)).toEqual(['d', 'c']);
  await expect(
    records.platenChecks.put({ id: 'e', pressId: 'not-there', createdAt: '2026' } as never),
  ).rejects.toThrow(/FOREIGN KEY/);
  for (const [id, pressId] of [
    ['r', 'flat'],
    ['t', null],
  ])
    await records.evennessReadings.put({ id, sheetId: 's', pressId, createdAt: '2026' } as never);
  await records.ladders.put({ sheetId: 's', blankId: 'tile', updatedAt: '2026', pictures: [hash] } as never);

  expect(await records.presses.remove('flat')).toBe(true);
  expect(await records.presses.remove('flat')).toBe(false);
  expect(await records.platenChecks.list()).toEqual([]);
  expect(await records.evennessReadings.list({ pressId: 'flat' })).toHaveLength(1);
  expect(await records.evennessReadings.list({ sheetId: 's' })).toHaveLength(2);
  expect(await records.evennessReadings.list({ sheetId: 'other' })).toEqual([]);
  expect(await records.ladders.list({ blankId: 'tile' })).toHaveLength(1);
  expect(await records.ladders.list({ blankId: 'mug' })).toEqual([]);
  // A picture that only a ladder names is not dropped.
  expect(await records.names(hash)).toBe(true);
  await close();
});

test('a version of a recipe is never written over', async () => {
  const { db, close } = await openDatabase(folder);
  const { recipeVersions } = new Records(db);
  const version = (number: number) => ({ blankId: 'tile', number, createdAt: `2026-0${number}` }) as never;
  expect(await recipeVersions.latest('tile')).toBeUndefined();
  for (const number of [1, 2]) await recipeVersions.put(version(number));
  await expect(recipeVersions.put(version(2))).rejects.toThrow(/UNIQUE/);
  expect((await recipeVersions.list('tile')).map(({ number }) => number)).toEqual([2, 1]);
  expect((await recipeVersions.latest('tile'))?.number).toBe(2);
  expect(await recipeVersions.list('mug')).toEqual([]);
  await close();
});
