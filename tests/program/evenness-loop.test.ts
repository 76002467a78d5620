/**
 * An evenness sheet ordered from the shop, printed, pressed on a platen that is uneven in heat and pressure (of another
 * kind than the terms that are fitted), scanned, read back.
 */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { EvennessReadingFacts, TestSheet } from '#contract';
import { isProblem } from '#craft/problem';
import type { Shop } from '#shop';
import { newFolder, openTestShop } from '../shop/fixture.js';
import { ink, type Picture, scan, toFile, writtenSheet } from '../simulator/index.js';
import { pressedSheet } from '../simulator/pressed-sheet.js';
import { barAt, celsiusAt, type UnevenPlaten, usualPlaten } from '../simulator/uneven-platen.js';

vi.setConfig({ testTimeout: 240_000, hookTimeout: 240_000 });

const ppi = 300;
const { folder, remove } = newFolder();
const faults: unknown[] = [];
let shop: Shop;
let sheet: TestSheet;
let paper: Picture;
const face = { widthMm: 210, depthMm: 148 };

beforeAll(async () => {
  let minutes = 0;
  const clock = () => new Date(Date.UTC(2026, 4, 1) + 60_000 * ++minutes);
  ({ shop } = await openTestShop({ folder, clock, onFault: (error) => faults.push(error) }));
  await shop.presses.save('bench-press', {
    id: 'bench-press',
    name: 'Bench press',
    kind: 'flat',
    platenWidthMm: 380,
    platenDepthMm: 380,
  });
  sheet = await shop.testSheets.make(
    {
      kind: 'evenness',
      setupId: 'desktop-a4',
      blankId: 'aluminium-sheet-200x300',
      pressId: 'bench-press',
      widthMm: face.widthMm,
      heightMm: face.depthMm,
    },
    { format: 'png' },
  );
  const file = sheet.files.find(({ kind }) => kind === 'sheet')!;
  paper = await writtenSheet(
    readFileSync((await shop.testSheets.openFile(sheet.id, file.fileName)).path),
    ppi,
  );
});
afterAll(async () => {
  await shop.close();
  remove();
});

const pressedOn = (how: UnevenPlaten): Picture =>
  pressedSheet(paper, (u, v) => ({
    platenC: celsiusAt(how, u, v, face),
    dwellSeconds: how.dwellSeconds,
    pressureBar: barAt(how, u, v, face),
  }));
const scanned = (piece: Picture, seed: number, turnDegrees = 0.7): Promise<Buffer> =>
  toFile(scan(piece, { ppi: 200, turnDegrees, dust: 15, seed }), { format: 'png', ppi: 200 });
const kinds = ({ findings }: EvennessReadingFacts) => findings.map(({ kind }) => kind);

let tilted: EvennessReadingFacts;

test('a platen cooler at its left is a tilt that names the left, scanned upside down too', async () => {
  const piece = pressedOn({ ...usualPlaten, platenC: 192, dwellSeconds: 30, hotterRightK: 9 });
  tilted = await shop.evenness.read(await scanned(piece, 1, 181), { fileName: 'tilt.png' });
  console.log(
    tilted.sentences.join('\n'),
    tilted.findings.map(({ words }) => words),
  );
  expect(tilted).toMatchObject({ sheetId: sheet.id, pressId: 'bench-press', pressName: 'Bench press' });
  expect(tilted).toMatchObject({ surface: 'piece', grade: 'D', since: null });
  expect(kinds(tilted)).toContain('tilt');
  const { words } = tilted.findings.find(({ kind }) => kind === 'tilt')!;
  expect(words).toMatch(/left/);
  const { columns, rows, smooth, deltaE00 } = tilted.map;
  expect([smooth.length, deltaE00.length]).toEqual([columns * rows, columns * rows]);
  const middle = columns * Math.floor(rows / 2);
  expect(smooth[middle + 1]!).toBeGreaterThan(smooth[middle + columns - 2]!);
  expect(tilted.best.across).toBeGreaterThan(0.5);
});

test('mended, and with a cold place at the back right: what came and what went', async () => {
  const coldSpot = { u: 0.55, v: -0.5, radiusMm: 16, lossK: 14 };
  const piece = pressedOn({ ...usualPlaten, platenC: 192, dwellSeconds: 30, coldSpot });
  const reading = await shop.evenness.read(await scanned(piece, 2), {
    fileName: 'spot.png',
    pressId: 'bench-press',
  });
  console.log(reading.sentences.join('\n'), reading.since);
  const spot = reading.findings.find(({ kind }) => kind === 'spot')!;
  expect(spot.at!.across).toBeCloseTo((1 + coldSpot.u) / 2, 0.7);
  expect(spot.at!.along).toBeCloseTo((1 + coldSpot.v) / 2, 0.7);
  expect(reading.since!.readingId).toBe(tilted.id);
  expect(reading.since!.words.length).toBeGreaterThan(20);
  expect((await shop.evenness.list({ pressId: 'bench-press' })).map(({ id }) => id)).toEqual([
    reading.id,
    tilted.id,
  ]);
});

test('an even platen is called even', async () => {
  const reading = await shop.evenness.read(await scanned(pressedOn(usualPlaten), 3), {
    fileName: 'even.png',
    sheetId: sheet.id,
  });
  console.log(reading.sentences.join('\n'));
  expect(kinds(reading)).toEqual(['even']);
  expect(reading.p95DeltaE00).toBeLessThan(1.5);
  await shop.evenness.remove(reading.id);
  await expect(shop.evenness.get(reading.id)).rejects.toMatchObject({ code: 'record.missing' });
});

test('paper, another sheet, a press or scanner that is not there', async () => {
  const codeOf = async (work: Promise<unknown>): Promise<string> => {
    const error = await work.catch((thrown: unknown) => thrown);
    return isProblem(error) ? error.code : `no problem: ${String(error)}`;
  };
  const file = await scanned(ink(paper), 4);
  const onPaper = await shop.evenness.read(file, { fileName: 'paper.png' });
  expect(onPaper).toMatchObject({ surface: 'paper', since: null });
  expect(onPaper.sentences[0]).toMatch(/tells of the printer, not of the press/);
  const about = { fileName: 'x.png' };
  expect(await codeOf(shop.evenness.read(file, { ...about, pressId: 'gone' }))).toBe('record.missing');
  expect(await codeOf(shop.evenness.read(file, { ...about, readerId: 'gone' }))).toBe('record.missing');
  expect(await codeOf(shop.evenness.read(file, { ...about, sheetId: 'XXXXXXXXXX' }))).toBe('request.invalid');
  expect(await codeOf(shop.evenness.read(Buffer.from('no'), about))).toMatch(/^image\./);
  const chart = await shop.testSheets.make(
    { kind: 'colour', setupId: 'desktop-a4', blankId: 'aluminium-sheet-200x300', patches: 60, seed: 5 },
    { format: 'png' },
  );
  expect(await codeOf(shop.evenness.read(file, { ...about, sheetId: chart.id }))).toBe('scan.wrong-sheet');
});

test('nothing went wrong that nobody heard of', () => expect(faults).toEqual([]));
