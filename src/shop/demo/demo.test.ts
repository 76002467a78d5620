import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { blankSchema } from '#contract';
import { developBlank } from '#craft/blank';
import { deviceToLab, parseProfile } from '#craft/icc';
import { colourSheetRecipe } from '#craft/testsheet';
import { newFolder, openTestShop } from '../../../tests/shop/fixture.js';
import { demoArtwork, demoFileNames } from './artwork.js';
import { inventedPrinterProfile } from './invented-printer.js';

test('the artwork is drawn whole, tagged as 300 pixels an inch, with no text left as text', async () => {
  const pieces = await demoArtwork();
  expect(pieces).toHaveLength(4);
  for (const piece of pieces) {
    if (piece.fileName.endsWith('.svg')) {
      expect(Buffer.from(piece.bytes).toString()).not.toMatch(/<text|font|href|NaN|undefined/);
      continue;
    }
    const { channels } = await sharp(piece.bytes).stats();
    // Something is drawn: no channel is flat.
    expect(channels.slice(0, 3).every((channel) => channel.stdev > 10)).toBe(true);
    expect((await sharp(piece.bytes).metadata()).density).toBe(300);
    expect((await sharp(piece.bytes).metadata()).hasAlpha).toBe(piece.fileName.startsWith('pull'));
  }
  const again = await demoArtwork();
  expect(
    again.map((piece) => Buffer.from(piece.bytes).equals(Buffer.from(pieces[again.indexOf(piece)]!.bytes))),
  ).toEqual([true, true, true, true]);
});

test.each([
  [demoFileNames.mug, 'mug-straight-330ml'],
  [demoFileNames.coaster, 'slate-coaster-round-100'],
  [demoFileNames.shirt, 'shirt-polyester-front'],
  [demoFileNames.banner, 'flag-polyester-300x450'],
])('%s has the size of its blank with bleed, at 300 pixels an inch (%s)', async (fileName, blankId) => {
  const blank = blankSchema.parse(JSON.parse(await readFile(`data/blanks/${blankId}.json`, 'utf8')));
  const face = developBlank(blank.shape);
  const piece = (await demoArtwork()).find((one) => one.fileName === fileName)!;
  const { width, height } = await sharp(piece.bytes, { density: 72 }).metadata();
  // A drawing has ten units a millimetre, whatever its pixels; 1 in = 25.4 mm.
  const perMm = fileName.endsWith('.svg') ? 10 : 300 / 25.4;
  expect(Math.abs(width / perMm - (face.widthMm + 2 * blank.bleedMm))).toBeLessThan(0.2);
  expect(Math.abs(height / perMm - (face.heightMm + 2 * blank.bleedMm))).toBeLessThan(0.2);
});

test('the invented printer’s profile says that it is invented, has a white of no ink, and falls darker with more ink', () => {
  const profile = parseProfile(inventedPrinterProfile());
  const lab = deviceToLab(profile, 'relative');
  const at = (r: number, g: number, b: number) => [...lab([r, g, b])] as [number, number, number];
  expect(at(1, 1, 1)[0]).toBeCloseTo(100, 1);
  expect(Math.hypot(at(1, 1, 1)[1], at(1, 1, 1)[2])).toBeLessThan(0.1);
  const greys = Array.from({ length: 11 }, (_, i) => at(i / 10, i / 10, i / 10)[0]);
  expect(greys).toEqual([...greys].sort((a, b) => a - b));
  expect(greys[0]).toBeGreaterThan(5);
  // Hues as in the CIELAB plane (from memory, within a quarter turn): yellow up, blue down, red right, green left.
  expect(at(1, 1, 0)[2]).toBeGreaterThan(50);
  expect(at(0, 0, 1)[2]).toBeLessThan(-30);
  expect(at(1, 0, 0)[1]).toBeGreaterThan(40);
  expect(at(0, 1, 0)[1]).toBeLessThan(-40);
});

test('an empty shop is filled once, every record of it marked as demo, and its two sheets pass their checks', async () => {
  const { folder, remove } = newFolder();
  const { shop, faults } = await openTestShop({ folder, demo: true });
  expect(await shop.facts()).toMatchObject({ demo: true, calibrated: true });
  await shop.finishDemo();
  expect(faults).toEqual([]);
  const made = await shop.sheets.list();
  expect(made).toHaveLength(2);
  for (const sheet of made) expect(sheet.checks.filter((check) => check.level === 'stop')).toEqual([]);
  const marked = [...(await shop.artwork.list()), ...(await shop.paths.list()), ...made];
  expect(marked.length).toBe(4 + 1 + 2);
  const testSheets = await shop.testSheets.list();
  expect(testSheets.map(({ kind, demo }) => [kind, demo]).sort()).toEqual([
    ['colour', true],
    ['evenness', true],
    ['ladder', true],
  ]);
  const testSheet = testSheets.find(({ kind }) => kind === 'colour');
  const [press] = (await shop.presses.list()).filter(({ demo }) => demo);
  // Its nine temperatures are 195.25 °C on the mean, for 200 °C set.
  const offset = (await shop.presses.offset(press!.id)).offsetK!;
  expect(Math.abs(offset.value + 4.75)).toBeLessThan(1);
  // Its number says what is on it, so simulated scans of it stay readable.
  expect(testSheet).toMatchObject({
    demo: true,
    kind: 'colour',
    patches: 150,
    material: 'hard',
    widthMm: 210,
  });
  expect(colourSheetRecipe(testSheet!.id)).toEqual({ count: 150, seed: 2026, material: 'hard' });
  expect(marked.every((record) => record.demo)).toBe(true);
  // The scans in examples/ are of these very sheets: npm run examples makes them anew when they no longer are.
  const example = (fileName: string) => [`examples/${fileName}`, { fileName }] as const;
  const ladder = await shop.ladders.read(...example('ladder-scan.jpg'));
  expect([ladder.demo, ladder.pictures[0]!.coupons]).toEqual([true, [1, 2, 3, 4, 5, 6, 7, 8, 9]]);
  expect(ladder.window!.words).toContain('Press 196 °C');
  const uneven = await shop.evenness.read(...example('evenness-scan.jpg'));
  expect([uneven.demo, uneven.findings.map(({ kind }) => kind)]).toEqual([true, ['spot', 'tilt']]);
  await shop.setups.remove('demo-studio-a4');
  await shop.presses.remove(press!.id);
  await shop.close();
  const again = await openTestShop({ folder, demo: true });
  await again.shop.finishDemo();
  expect((await again.shop.setups.list()).some((setup) => setup.demo)).toBe(false);
  expect((await again.shop.presses.list()).some(({ demo }) => demo)).toBe(false);
  expect((await again.shop.sheets.list()).map((sheet) => sheet.createdAt)).toEqual(
    made.map((sheet) => sheet.createdAt),
  );
  await again.shop.close();
  remove();
});

test('a shop with work of its own gets no demo', async () => {
  const { folder, remove } = newFolder();
  const first = await openTestShop({ folder });
  async function* picture() {
    yield await sharp({ create: { width: 9, height: 9, channels: 3, background: '#345' } })
      .png()
      .toBuffer();
  }
  await first.shop.artwork.add(picture(), 'own.png');
  await first.shop.close();
  const { shop } = await openTestShop({ folder, demo: true });
  await shop.finishDemo();
  expect(await shop.artwork.list()).toHaveLength(1);
  expect((await shop.facts()).demo).toBe(false);
  await shop.close();
  remove();
});
