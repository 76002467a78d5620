/** What stays of the press bench when things round it go, and when two things happen at once. */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { Ladder } from '#contract';
import type { Shop } from '#shop';
import { readCouponsPicture } from '#shop/vision';
import { newFolder, openTestShop } from '../shop/fixture.js';
import { chanceOf, cutCoupon, pressedAt, scanOfCoupons, toFile, writtenSheet } from '../simulator/index.js';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const blankId = 'aluminium-sheet-200x300';
const press = {
  id: 'short-lived',
  name: 'Short-lived',
  kind: 'flat',
  platenWidthMm: 400,
  platenDepthMm: 300,
};
const { folder, remove } = newFolder();
let shop: Shop;
let faults: unknown[];
let sheetId = '';
/** Two scans of the same coupons, one with those of even, one with those of odd numbers. */
let scans: Buffer[];

beforeAll(async () => {
  ({ shop, faults } = await openTestShop({ folder }));
  await shop.presses.save(press.id, press);
  await shop.presses.addCheck(press.id, {
    setC: 200,
    method: 'probe',
    columns: 1,
    rows: 1,
    celsius: [196],
  });
  const sheet = await shop.testSheets.make(
    {
      kind: 'ladder',
      setupId: 'desktop-a4',
      blankId,
      pressId: press.id,
      coupons: 6,
      factors: [{ kind: 'time', low: 30, high: 80 }],
      start: { platenC: 200, dwellSeconds: 50 },
    },
    { format: 'png' },
  );
  sheetId = sheet.id;
  const drawn = sheet.files.find(({ kind }) => kind === 'sheet')!;
  const bytes = readFileSync((await shop.testSheets.openFile(sheetId, drawn.fileName)).path);
  const paper = await writtenSheet(bytes, 300);
  const { coupons } = await readCouponsPicture(bytes);
  const pieces = sheet.ladder!.coupons.map(({ number, step }) => ({
    number,
    piece: pressedAt(cutCoupon(paper, coupons.find((one) => one.number === number)!.reading!.outline), step),
  }));
  scans = await Promise.all(
    [0, 1].map((rest) =>
      toFile(
        scanOfCoupons(
          pieces.filter(({ number }) => number % 2 === rest).map(({ piece }) => piece),
          chanceOf(rest + 1),
          rest + 1,
        ),
        { format: 'png', ppi: 300 },
      ),
    ),
  );
});
afterAll(async () => {
  await shop.close();
  remove();
});

const window = ({ window }: Ladder) => {
  expect(window).not.toBeNull();
  return window!;
};

test('two scans read at once and a note said meanwhile: none is lost', async () => {
  await shop.readers.put('flatbed', { name: 'Flatbed', kind: 'scanner' });
  await Promise.all([
    shop.ladders.read(scans[0]!, { fileName: 'even.png', readerId: 'flatbed' }),
    shop.ladders.note(sheetId, { coupons: [{ number: 1, byEye: { edges: 'crisp' } }] }),
    shop.ladders.read(scans[1]!, { fileName: 'odd.png' }),
    shop.ladders.note(sheetId, { coupons: [{ number: 2, leftOut: true }] }),
  ]);
  const ladder = await shop.ladders.get(sheetId);
  expect(ladder.pictures.map(({ fileName }) => fileName).sort()).toEqual(['even.png', 'odd.png']);
  expect(ladder.coupons.every(({ values }) => values !== null)).toBe(true);
  const one = (number: number) => ladder.coupons.find((coupon) => coupon.number === number)!;
  expect(one(1).byEye).toEqual({ edges: 'crisp' });
  expect(one(2).leftOut).toBe(true);
});

test('opened again, the shop says the same of it', async () => {
  const before = await shop.ladders.get(sheetId);
  const field = await shop.ladders.field(sheetId);
  await shop.close();
  ({ shop, faults } = await openTestShop({ folder }));
  expect(await shop.ladders.get(sheetId)).toEqual(before);
  expect(await shop.ladders.field(sheetId)).toEqual(field);
});

test('press and scanner gone: the checks go with the press; ladder, recipe and what was read stand', async () => {
  const version = await shop.recipes.adopt(blankId, { from: 'ladder', ladderId: sheetId });
  expect(version).toMatchObject({ pressId: press.id, pressName: press.name });
  const on = await shop.recipes.onPress(blankId);
  expect(on.setC).toBeGreaterThan(on.platenC);
  await shop.presses.remove(press.id);
  await expect(shop.presses.checks(press.id)).rejects.toMatchObject({ code: 'record.missing' });
  await expect(shop.recipes.onPress(blankId, press.id)).rejects.toMatchObject({ code: 'record.missing' });
  expect(await shop.recipes.onPress(blankId)).toMatchObject({ pressId: null, offsetK: null });
  expect((await shop.recipes.versions(blankId))[0]).toEqual(version);
  await shop.readers.remove('flatbed');
  const noted = await shop.ladders.note(sheetId, { coupons: [{ number: 1, byEye: null }] });
  expect(window(noted).recipe.platenC).toBe(200);
  expect(noted.plan.pressName).toBe(press.name);
  expect(noted.pictures.find(({ fileName }) => fileName === 'even.png')!.readerName).toBe('Flatbed');
  const again = { fileName: 'again.png', readerId: 'flatbed' };
  await expect(shop.ladders.read(scans[0]!, again)).rejects.toMatchObject({ code: 'record.missing' });
  await expect(
    shop.testSheets.propose({ kind: 'ladder', setupId: 'desktop-a4', blankId, pressId: press.id }),
  ).rejects.toMatchObject({ code: 'record.missing' });
});

test('a blank that is gone leaves its ladder and its recipes; come back, its recipes go on counting', async () => {
  const blank = await shop.blanks.get(blankId);
  const known = (await shop.recipes.versions(blankId)).length;
  await shop.blanks.remove(blankId);
  const ladder = await shop.ladders.read(scans[1]!, { fileName: 'odd again.png' });
  expect(window(ladder).words).toContain('Press 200 °C');
  expect(await shop.ladders.list({ blankId })).toHaveLength(1);
  const black = { black: { byEye: 'green' }, step: { platenC: 200, dwellSeconds: 30 }, blankId };
  expect(await shop.ladders.verdict(black)).toMatchObject({ restsOn: 'own ladder', verdict: 'under' });
  for (const refused of [
    shop.recipes.versions(blankId),
    shop.recipes.adopt(blankId, { from: 'ladder', ladderId: sheetId }),
    shop.recipes.suggest({ blankId }),
    shop.heatDesk.look({ blankId }),
  ])
    await expect(refused).rejects.toMatchObject({ code: 'record.missing' });
  // The joints learnt from ladders must do without this one's blank.
  await shop.recipes.suggest({ blankId: 'tile-ceramic-108' });

  await shop.blanks.save(blankId, { ...blank, recipe: { ...blank.recipe, dwellSeconds: 71 } });
  const numbers = (await shop.recipes.versions(blankId)).map(({ number }) => number);
  expect(numbers).toEqual(Array.from({ length: known + 1 }, (_, i) => known + 1 - i));
});

test('a ladder whose sheet is gone can still be read and told of', async () => {
  await shop.testSheets.remove(sheetId);
  window(await shop.ladders.get(sheetId));
  expect(
    (await shop.ladders.read(scans[0]!, { fileName: 'late.png', sheetId })).pictures.at(-1),
  ).toMatchObject({ coupons: [2, 4, 6] });
  await shop.ladders.remove(sheetId);
  await expect(shop.ladders.get(sheetId)).rejects.toMatchObject({ code: 'record.missing' });
});

test('nothing went wrong that nobody heard of', () => expect(faults).toEqual([]));
