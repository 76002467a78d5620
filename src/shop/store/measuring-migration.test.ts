import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { colourPathSchema } from '#contract';
import { migrations, openDatabase, Records } from './index.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'dyewright-store-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const hash = 'a'.repeat(64);
/** Records as the program of the first tables wrote them. */
const imported = {
  id: 'imported',
  name: 'Imported',
  origin: 'imported',
  iccHash: hash,
  description: 'x',
  iccVersion: '2.4',
  deviceClass: 'prtr',
  intents: ['relative'],
  createdAt: '2026-01-01T00:00:00.000Z',
  demo: false,
};
const measured = {
  ...imported,
  id: 'measured',
  name: 'Measured',
  origin: 'measured',
  measurement: {
    grade: 'A',
    patches: 150,
    repeats: 8,
    outliers: [],
    noiseSdLab: [0.1, 0.1, 0.1],
    expectedError: { meanDeltaE00: 0.7, p95DeltaE00: 1.4 },
    gamut: { whiteLab: [94, 0, 2], blackLab: [20, 0, 0], volumeLab: 300000, srgbShare: 0.7 },
    modelHash: hash,
    measurementsHash: hash,
    adaptedFrom: null,
    remarks: ['A remark with “quotes” and a \\ in it.'],
  },
};

test('a shop of the first tables gets those for measuring, and its measured paths say where they come from', async () => {
  const first = { '0001-first': migrations['0001-first']! };
  const before = await openDatabase(folder, first);
  for (const value of [imported, measured]) {
    await before.db
      .insertInto('colourPaths')
      .values({
        id: value.id,
        name: value.name,
        iccHash: hash,
        json: JSON.stringify(value),
        createdAt: value.createdAt,
      })
      .execute();
  }
  await before.close();

  const { db, close } = await openDatabase(folder);
  const records = new Records(db);
  expect(await records.colourPaths.get('imported')).toEqual(imported);
  const moved = await records.colourPaths.get('measured');
  expect(moved).toEqual({
    ...measured,
    measurement: {
      ...measured.measurement,
      expectedError: { ...measured.measurement.expectedError, restsOn: 'measured' },
      readingIds: [],
    },
  });
  expect(colourPathSchema.parse(moved)).toEqual(moved);
  expect(await records.testSheets.list()).toEqual([]);
  await close();
});

test('checks go with their colour path; readings stay when their sheet goes', async () => {
  const { db, close } = await openDatabase(folder);
  const records = new Records(db);
  await records.colourPaths.add(colourPathSchema.parse(imported));
  await records.pathChecks.put({ id: 'c', pathId: 'imported', createdAt: '2026' } as never);
  await expect(
    records.pathChecks.put({ id: 'd', pathId: 'not-there', createdAt: '2026' } as never),
  ).rejects.toThrow(/FOREIGN KEY/);
  await records.testSheets.put(
    { id: 's', kind: 'colour', createdAt: '2026' } as never,
    { blank: 1 } as never,
    { order: 2 },
  );
  await records.readings.put({ id: 'r', sheetId: 's', createdAt: '2026' } as never);
  expect(await records.testSheets.plan('s')).toEqual({ order: 2 });
  expect(await records.testSheets.snapshot('s')).toEqual({ blank: 1 });
  expect(await records.testSheets.plan('t')).toBeUndefined();
  expect(await records.colourPaths.remove('imported')).toBe(true);
  expect(await records.pathChecks.list()).toEqual([]);
  expect(await records.testSheets.remove('s')).toBe(true);
  expect(await records.readings.list('s')).toHaveLength(1);
  expect(await records.readings.list('t')).toEqual([]);
  await close();
});
