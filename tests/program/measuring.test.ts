import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { readMeasurements, statedGrade, writeCgats } from '#craft/cgats';
import { deltaE00, type Triple } from '#craft/colour';
import { newFolder } from '../shop/fixture.js';
import { scanOf, trueRelativeLab } from '../shop/printed-chart.js';
import { runProgram } from './run.js';

const { folder, remove } = newFolder();
afterAll(remove);
const shop = path.join(folder, 'shop');
const named = (name: string): string => path.join(folder, name);
const run = (...args: string[]) => runProgram(args, shop);
async function json(code: number, ...args: string[]) {
  const ended = await run(...args, '--json');
  expect([ended.code, args, ended.err]).toEqual([code, args, expect.any(String)]);
  return JSON.parse(ended.out);
}

interface Place {
  readonly name: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly deviceRgb: readonly number[];
}
let places: Place[] = [];
let sheetId = '';
const small = ['--width', '148', '--height', '210', '--patches', '60', '--seed', '3', '--ppi', '150'];

beforeAll(async () => {
  const made = await json(0, 'colour-sheet', '--out', named('chart.png'), ...small);
  places = made.places;
  sheetId = made.sheet.id;
  writeFileSync(named('scan.png'), await scanOf(readFileSync(named('chart.png')), 150));
});

test('a colour sheet says where every patch is and what it is printed with; the file has them there, left for right', async () => {
  expect(places.length).toBeGreaterThan(60);
  const { data, info } = await sharp(named('chart.png')).raw().toBuffer({ resolveWithObject: true });
  expect([info.width, info.height]).toEqual([874, 1240]);
  for (const { xMm, yMm, widthMm, heightMm, deviceRgb } of places) {
    const x = Math.round(((148 - xMm - widthMm / 2) / 25.4) * 150);
    const y = Math.round(((yMm + heightMm / 2) / 25.4) * 150);
    const at = 3 * (y * info.width + x);
    expect([...data.subarray(at, at + 3)]).toEqual(deviceRgb);
  }
});

test('read, it gives the colours with their grade, and needs no shop for that', async () => {
  const { reading, patches, kept, written } = await json(
    0,
    'read',
    named('scan.png'),
    '--piece',
    '--out',
    named('read.txt'),
    '--overlay',
    named('read.jpg'),
  );
  expect(reading).toMatchObject({ sheetId, subject: 'piece', grade: 'D', patchCount: 60 });
  expect(kept).toBe(false);
  expect(written).toEqual([named('read.txt'), named('read.jpg')]);
  expect(patches.map((one: { deviceRgb: number[] }) => one.deviceRgb)).toEqual(
    places.map(({ deviceRgb }) => deviceRgb),
  );
  const table = readMeasurements(readFileSync(named('read.txt'), 'utf8'));
  expect(statedGrade(table)?.grade).toBe('D');
  expect(table.sampleIds).toContain(places[5]!.name);
  expect((await sharp(named('read.jpg')).metadata()).format).toBe('jpeg');
  expect(existsSync(shop)).toBe(false);
});

test('words: one sentence what was read, one what it is worth', async () => {
  const { code, out } = await run('read', named('scan.png'));
  expect(code).toBe(0);
  expect(out).toMatch(/^Read \d+ of 60 patches from the pressed piece\.\n.*grade D/);
});

test('kept in the shop, with an instrument’s file of a sheet made there', async () => {
  const made = await json(
    0,
    'colour-sheet',
    '--out',
    named('own.png'),
    '--setup',
    'desktop-a4',
    '--blank',
    'aluminium-sheet-200x300',
    '--patches',
    '60',
    '--width',
    '148',
    '--height',
    '210',
  );
  expect(made.written).toEqual([named('own.png'), named('own-ticket.pdf')]);
  expect(made.sheet).toMatchObject({ kind: 'colour', setupName: 'Desktop printer, A4', patches: 60 });
  const colours = made.places as Place[];
  const text = writeCgats(
    {
      device: { space: 'RGB', rows: colours.map(({ deviceRgb }) => deviceRgb.map((v) => v / 255)) },
      lab: colours.map(({ deviceRgb }): Triple => trueRelativeLab(deviceRgb)),
      xyz: null,
      spectra: null,
      sdLab: null,
      sampleIds: colours.map(({ name }) => name),
      keywords: new Map(),
      remarks: [],
    },
    { originator: 'Virtual instrument (invented)' },
  );
  writeFileSync(named('measured.txt'), text);
  const { reading, patches } = await json(
    0,
    'read',
    named('measured.txt'),
    '--instrument',
    '--sheet',
    made.sheet.id,
    '--keep',
  );
  expect(reading).toMatchObject({
    from: 'instrument',
    grade: 'A',
    sheetId: made.sheet.id,
    id: expect.any(String),
  });
  for (const { deviceRgb, lab } of patches)
    expect(deltaE00(lab, trueRelativeLab(deviceRgb))).toBeLessThan(0.01);
});

test.each([
  [['colour-sheet', '--out', 'x.doc'], 'output.unsupported'],
  [['colour-sheet', '--out', 'x.pdf', '--patches', '29'], 'request.invalid'],
  [['colour-sheet', '--out', 'x.pdf', '--patches', '900', '--fabric'], 'sheet.impossible'],
  [['colour-sheet', '--out', 'x.pdf', '--width', '30'], 'sheet.impossible'],
  [['colour-sheet', '--out', 'x.pdf', '--ppi', '20'], 'request.invalid'],
  [['colour-sheet', '--out', 'x.pdf', '--grey'], 'request.invalid'],
  [['colour-sheet', '--out', 'x.pdf', '--setup', 'desktop-a4'], 'request.invalid'],
  [['colour-sheet', '--out', 'x.pdf', '--check', 'a', '--palette', 'b'], 'request.invalid'],
  [['colour-sheet', '--out', 'x.pdf', '--artwork', 'a.png'], 'request.invalid'],
  [['read', 'SCAN', '--paper', '--piece'], 'request.invalid'],
  [['read', 'SCAN', '--paper'], 'scan.wrong-sheet'],
  [['read', 'SCAN', '--card-values', 'SCAN'], 'request.invalid'],
  [['read', 'SCAN', '--card-values', 'SCAN', '--card-corners', '1,2,3'], 'request.invalid'],
  [['read', 'SCAN', '--instrument'], 'request.invalid'],
  [['read', 'CHART'], 'scan.no-marks'],
] as const)('%j is refused in words', async (args, code) => {
  writeFileSync(
    named('letter.png'),
    await sharp({ create: { width: 400, height: 400, channels: 3, background: '#fff' } })
      .png()
      .toBuffer(),
  );
  const real = args.map((word) =>
    word === 'SCAN'
      ? named('scan.png')
      : word === 'CHART'
        ? named('letter.png')
        : word === 'x.pdf'
          ? named('x.pdf')
          : word,
  );
  const answer = await json(2, ...real);
  expect(answer.problem).toMatchObject({
    code,
    detail: expect.stringMatching(/\.$/),
    remedy: expect.stringMatching(/.{8}/),
  });
  expect(existsSync(named('x.pdf'))).toBe(false);
});
