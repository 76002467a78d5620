/**
 * Measured colour paths, from an instrument's file to a sheet. The printers are simulated (tests/simulator): their
 * colours come from Little CMS on the CMYK profile that libvips carries, so their truth is known to the test alone.
 */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type ColourPath, colourPathSchema } from '#contract';
import { type MeasurementTable, readMeasurements } from '#craft/cgats';
import { deltaE00, type Triple } from '#craft/colour';
import type { InkModelData } from '#craft/inkmodel';
import type { Shop } from '#shop';
import { type FileSystemPort, nodeFileSystem } from '#shop/files';
import { inkModelOf, predictColours } from '#shop/paths';
import { littleCms, refereeConvert, refereeDescription } from '../fixtures/icc/little-cms.js';
import { cornersPng, keptFiles, newFolder, openTestShop } from '../shop/fixture.js';
import { cgatsOf, measuredChart, onOtherBlank } from '../simulator/measured-file.js';
import { halftoneCmyk, heldOut, measured, type VirtualPrinter } from '../simulator/virtual-printer.js';

const { folder, remove } = newFolder();
const at = (name: string) => path.join(folder, name);
const bytesOf = (text: string) => new TextEncoder().encode(text);
const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
const wrongRows = [17, 90];

let printer: VirtualPrinter;
let chart: MeasurementTable;
let truth: Triple[];
const test300 = heldOut(300, 77);

/** A shop of its own for the command line; the one below is held open by this process. */
const cliShop = at('cli-shop');
function dyewright(...words: string[]) {
  const root = path.resolve(import.meta.dirname, '../..');
  const run = spawnSync(
    process.execPath,
    [path.join(root, 'bin/dyewright.mjs'), '--shop', cliShop, ...words],
    {
      encoding: 'utf8',
    },
  );
  return { code: run.status, out: run.stdout, err: run.stderr, json: () => JSON.parse(run.stdout) };
}

beforeAll(async () => {
  printer = await halftoneCmyk();
  truth = printer.print(test300);
  const good = measuredChart(printer, 100, 4);
  const lab = good.lab!.map((v, i): Triple => (wrongRows.includes(i) ? [v[0] - 14, v[1] + 9, v[2] + 6] : v));
  chart = { ...good, lab };
  writeFileSync(at('tile chart.txt'), cgatsOf(chart));
});
afterAll(() => remove());

describe('a path built from a file of measurements', () => {
  let shop: Shop;
  let built: ColourPath;
  let data: InkModelData;
  const steps: string[] = [];
  beforeAll(async () => {
    ({ shop } = await openTestShop({ folder: at('shop') }));
    const made = await shop.paths.build(bytesOf(cgatsOf(chart)), {
      name: 'Tiles, desk printer',
      onProgress: (_, step) => steps.push(step),
    });
    built = made.path;
    data = await shop.paths.model(built);
  });
  afterAll(() => shop?.close());

  test('is recorded with its grade, its noise, the patches left out and an expected error that holds', async () => {
    expect(colourPathSchema.parse(built)).toEqual(built);
    expect(await shop.paths.get('tiles-desk-printer')).toEqual(built);
    expect(steps).toHaveLength(2);
    const { measurement } = built;
    expect(built).toMatchObject({ origin: 'measured', iccVersion: '2.4.0', measurement: { grade: 'A' } });
    const named = measurement!.outliers.map((one) => one.sampleId);
    for (const i of wrongRows) expect(named).toContain(chart.sampleIds[i]);
    expect(named.length).toBeLessThanOrEqual(3);
    expect(measurement!.patches).toBe(chart.sampleIds.length - named.length);
    // The virtual instrument's noise: 0.4 / (2·√(2/π)) = 0.25 a coordinate.
    for (const sd of measurement!.noiseSdLab) expect(sd).toBeGreaterThan(0.15);
    // With few repeats the unevenness of the printer between near colours counts as noise too.
    for (const sd of measurement!.noiseSdLab) expect(sd).toBeLessThan(0.6);
    const { rows } = await predictColours(data, { sampleIds: [], rgb: test300, lab: truth, remarks: [] });
    const off = rows.map((row) => row.deltaE00!);
    expect(mean(off)).toBeLessThan(0.6);
    const within = off.filter((v) => v <= measurement!.expectedError.p95DeltaE00).length / off.length;
    expect(measurement!.expectedError.meanDeltaE00 / mean(off)).toBeGreaterThan(0.7);
    expect(measurement!.expectedError.meanDeltaE00 / mean(off)).toBeLessThan(1.5);
    expect(within).toBeGreaterThan(0.88);
    const [white, black] = printer.print([
      [1, 1, 1],
      [0, 0, 0],
    ]);
    expect(deltaE00(measurement!.gamut.whiteLab, white!)).toBeLessThan(0.6);
    expect(Math.abs(measurement!.gamut.blackLab[0] - black![0])).toBeLessThan(2);
    expect(measurement!.gamut.srgbShare).toBeGreaterThan(0.3);
    expect(measurement!.gamut.srgbShare).toBeLessThan(0.9);
  });

  // Four digits of XYZ: half of the last is 500 · 7.787 · 5e-7 = 0.002 in a* of the darkest (CIE 15).
  test('keeps the measurements, to the digits of the file', async () => {
    const text = new TextDecoder().decode(await shop.paths.measurements(built));
    const again = readMeasurements(text);
    expect(again.sampleIds).toEqual(chart.sampleIds);
    again.lab!.forEach((lab, i) => {
      for (let j = 0; j < 3; j += 1) expect(Math.abs(lab[j]! - chart.lab![i]![j]!)).toBeLessThan(0.005);
    });
  });

  test('its profile says in Little CMS what the model predicts', async () => {
    const { bytes } = await shop.paths.profile(built);
    const lcms = await littleCms();
    expect(refereeDescription(lcms, bytes)).toBe('Tiles, desk printer');
    await expectAgreement(bytes, data);
  });

  test('the same file under the same name gives the path there is, and leaves no files', async () => {
    const files = keptFiles(shop.folder).length;
    const again = await shop.paths.build(bytesOf(cgatsOf(chart)), { name: 'Tiles, desk printer' });
    expect(again.path).toEqual(built);
    expect(await shop.paths.list()).toHaveLength(1);
    expect(keptFiles(shop.folder)).toHaveLength(files);
  });

  test('serves a sheet like an imported one, and stays while a print setup uses it', async () => {
    writeFileSync(at('corners.png'), await cornersPng());
    const artwork = await shop.artwork.add(at('corners.png'), 'corners.png');
    const setup = await shop.setups.get('desktop-a4');
    await shop.setups.save(setup.id, { ...setup, colourPathId: built.id });
    const proposal = await shop.sheets.propose({
      artworkId: artwork.id,
      blankId: 'tile-ceramic-108',
      setupId: setup.id,
    });
    expect(proposal.colour).toMatchObject({ calibrated: true, pathName: 'Tiles, desk printer' });
    expect(proposal.colour.sentence).toMatch(/“Tiles, desk printer”.*grade A, within 0\.\d ΔE00 on average/);
    await expect(shop.paths.remove(built.id)).rejects.toMatchObject({ code: 'record.in-use' });
    await shop.setups.save(setup.id, { ...setup, colourPathId: null });
  });

  test('adapts to another blank with 30 patches, and not without end', async () => {
    const other = onOtherBlank(printer);
    const few = measuredChart(other, 30, 8);
    const { path: adapted } = await shop.paths.build(bytesOf(cgatsOf(few)), {
      name: 'Slate',
      base: { name: built.name, data },
    });
    expect(adapted.measurement).toMatchObject({ adaptedFrom: built.name, patches: 30 });
    const model = await shop.paths.model(adapted);
    const questions = { sampleIds: [], rgb: test300, lab: other.print(test300), remarks: [] };
    const { comparison } = await predictColours(model, questions);
    expect(comparison!.mean).toBeLessThan(1);
    const deep = [1, 2, 3].reduce((base): InkModelData => ({ ...model, base }), model);
    await expect(
      shop.paths.build(bytesOf(cgatsOf(few)), { name: 'x', base: { name: 'Deep', data: deep } }),
    ).rejects.toMatchObject({ code: 'chart.unusable', message: expect.stringContaining('adapted 4 times') });
  });

  test.each([
    [
      'CMYK device values',
      () => cgatsOf({ ...chart, device: { space: 'CMYK', rows: chart.device.rows.map((v) => [...v, 0]) } }),
      /no RGB device values/,
    ],
    ['too few patches', () => cgatsOf(rowsOf(chart, (i) => i < 9)), /9 patches are too few/],
    ['no colours', () => cgatsOf({ ...chart, lab: null, xyz: null }), /no colour values/],
    [
      'no device values',
      () => cgatsOf({ ...chart, device: { space: 'none', rows: chart.device.rows.map(() => []) } }),
      /no RGB device values/,
    ],
    [
      'rows counted differently',
      () => csvOf(chart, (i) => (i % 2 === 0 ? 1 : 255)),
      /Some rows count RGB from 0 to 1/,
    ],
    ['one channel counted differently', () => csvOf(chart, () => 255, 1), /do not cover the range/],
    [
      'colours moved by one row',
      () => cgatsOf({ ...chart, lab: chart.lab!.map((_, i, all) => all[(i + 1) % all.length]!) }),
      /do not follow the device values/,
    ],
    ['half a table', () => cgatsOf(chart).slice(0, 4000), /./],
    ['a picture', () => '\u0089PNG\r\n\u001a\n\0\0\0\rIHDR', /not text/],
    ['nothing', () => '', /empty/],
  ])('%s: a sentence, and nothing is kept', async (_, text, sentence) => {
    const before = await shop.paths.list();
    const problem = await shop.paths.build(bytesOf(text()), { name: 'Bad' }).catch((error: unknown) => error);
    expect(problem).toMatchObject({
      name: 'Problem',
      kind: 'input',
      message: expect.stringMatching(sentence),
      remedy: expect.stringMatching(/\w\.$/),
    });
    expect(await shop.paths.list()).toEqual(before);
  });

  test('a disk that fills up while the last of the files is kept: no record, no files', async () => {
    let renames = 0;
    const filling: FileSystemPort = {
      ...nodeFileSystem,
      rename: async (from, to) => {
        renames += 1;
        if (renames > 2) throw Object.assign(new Error('no space'), { code: 'ENOSPC' });
        await nodeFileSystem.rename(from, to);
      },
    };
    const full = await openTestShop({ folder: at('full'), fileSystem: filling });
    const few = bytesOf(cgatsOf(measuredChart(printer, 20, 3)));
    await expect(full.shop.paths.build(few, { name: 'Full' })).rejects.toMatchObject({ code: 'disk.full' });
    expect(renames).toBe(3);
    expect(await full.shop.paths.list()).toEqual([]);
    expect(keptFiles(at('full'))).toEqual([]);
    await full.shop.close();
  });

  test('an imported profile has no model to ask', async () => {
    const { bytes } = await shop.paths.profile(built);
    const imported = await shop.paths.importIcc(bytes, 'Brought in');
    expect(imported.measurement).toBeUndefined();
    await expect(shop.paths.model(imported)).rejects.toMatchObject({ code: 'profile.unsupported' });
  });
});

describe('the command line', () => {
  let measurement: { expectedError: { meanDeltaE00: number } };
  test('builds files without a shop; the model answers for held-out patches', () => {
    const built = dyewright(
      'path',
      'build',
      at('tile chart.txt'),
      '--no-keep',
      '--model-out',
      at('model.json'),
      '--json',
    );
    expect(built.err).toBe('');
    expect(built.json()).toMatchObject({
      path: null,
      measurement: { grade: 'A' },
      written: [at('model.json')],
    });
    measurement = built.json().measurement;
    const reading = measured(truth, 0.4, 5);
    writeFileSync(
      at('held.csv'),
      ['R,G,B,L,a,b', ...test300.map((rgb, i) => [...rgb.map((v) => 255 * v), ...reading[i]!].join())].join(
        '\n',
      ),
    );
    const said = dyewright('path', 'predict', at('model.json'), '--csv', at('held.csv'), '--json').json();
    expect(said.rows).toHaveLength(300);
    const off = said.rows.map((row: { lab: Triple }, i: number) => deltaE00(row.lab, truth[i]!));
    expect(mean(off)).toBeLessThan(0.6);
    expect(Math.abs(Math.log(measurement.expectedError.meanDeltaE00 / mean(off)))).toBeLessThan(0.45);
    // 90 % intervals of readings, pooled over coordinates.
    const held = said.rows.flatMap((row: { lab: Triple; sdLab: Triple }, i: number) =>
      row.lab.map(
        (v, j) => Math.abs(v - reading[i]![j]!) <= 1.6449 * Math.hypot(row.sdLab[j]!, said.noiseSdLab[j]),
      ),
    );
    const share = held.filter(Boolean).length / held.length;
    expect(share).toBeGreaterThan(0.85);
    expect(share).toBeLessThan(0.95);
    expect(said.comparison.mean).toBeGreaterThan(mean(off));
  });

  test('predicts from values on the line, counted as said', () => {
    const of = (...words: string[]) => dyewright('path', 'predict', at('model.json'), '--json', ...words);
    const [byte, one] = [of('--rgb', '51,102,204'), of('--rgb', '0.2 0.4 0.8')];
    expect(byte.json().rows[0].lab).toEqual(one.json().rows[0].lab);
    expect(byte.json().remarks.join()).toContain('0 to 255');
    expect(of('--rgb', '20,40,80', '--full', '100').json().rows[0].lab).toEqual(one.json().rows[0].lab);
    expect(of('--rgb', '20,40,80,1').json().problem).toMatchObject({ code: 'request.invalid' });
    const words = dyewright('path', 'predict', at('model.json'), '--rgb', '255,255,255');
    expect(words.out).toMatch(/expected ΔE00/);
  });

  test('inverts: what it says to send comes out as asked, on the printer', () => {
    const inner = heldOut(40, 12).map(
      ([r, g, b]): Triple => [0.15 + 0.7 * r, 0.15 + 0.7 * g, 0.15 + 0.7 * b],
    );
    const wanted = printer.print(inner);
    writeFileSync(at('wanted.csv'), ['L,a,b', ...wanted.map((lab) => lab.join())].join('\n'));
    const { rows } = dyewright(
      'path',
      'invert',
      at('model.json'),
      '--csv',
      at('wanted.csv'),
      '--json',
    ).json();
    const came = printer.print(rows.map((row: { rgb: Triple }) => row.rgb));
    const off = came.map((lab, i) => deltaE00(lab, wanted[i]!));
    const expected = mean(rows.map((row: { expectedDeltaE00: number }) => row.expectedDeltaE00));
    expect(mean(off)).toBeLessThan(0.6);
    expect(mean(off) / expected).toBeLessThan(1.5);
    const [beyond] = dyewright('path', 'invert', at('model.json'), '--lab', '50,100,-100', '--json').json()
      .rows;
    expect(beyond.inGamut).toBe(false);
    expect(beyond.missDeltaE00).toBeGreaterThan(5);
  });

  test('exports a version 4 profile that says in Little CMS what the model predicts', async () => {
    const done = dyewright(
      'path',
      'export',
      at('model.json'),
      '--icc',
      '4',
      '--name',
      'Tiles',
      '--out',
      at('v4.icc'),
    );
    expect(done.out).toContain('“Tiles”, ICC 4');
    const bytes = new Uint8Array(readFileSync(at('v4.icc')));
    expect(bytes[8]).toBe(4);
    await expectAgreement(bytes, inkModelOf(readFileSync(at('model.json'))));
  });

  test('keeps a path in the shop under either name of the group, adapts, exports and forgets it', () => {
    const few = measuredChart(onOtherBlank(printer), 30, 8);
    writeFileSync(
      at('slate.csv'),
      csvOf(few, () => 255),
    );
    const built = dyewright(
      'paths',
      'adapt',
      at('model.json'),
      at('slate.csv'),
      '--setup',
      'desktop-a4',
      '--grade',
      'A',
    );
    expect(built.err).toBe('');
    expect(built.out).toMatch(
      /Kept “slate” as slate\.\nGrade A \(measured by an instrument\), 30 patches, adapted from/,
    );
    expect(built.out).toMatch(/Expected error: mean \d\.\d\d, 95 % of colours within \d\.\d\d ΔE00/);
    const list = dyewright('paths', '--json').json();
    expect(list.find((one: ColourPath) => one.id === 'slate')).toMatchObject({ origin: 'measured' });
    expect(
      dyewright('path', 'predict', 'slate', '--rgb', '1,1,1', '--json').json().rows[0].lab[0],
    ).toBeGreaterThan(80);
    expect(dyewright('path', 'export', 'slate', '--out', at('slate.icc')).code).toBe(0);
    expect(dyewright('path', 'remove', 'slate').code).toBe(4);
  });

  test('says what is wrong, with the exit code of its kind', () => {
    writeFileSync(at('bad.json'), '{"format":"other"}');
    for (const [words, code, sentence] of [
      [['build', at('nowhere.txt')], 3, /cannot be read/],
      [['build', at('tile chart.txt'), '--no-keep'], 2, /needs --out/],
      [['build', at('tile chart.txt'), '--out', at('no/such/folder.icc')], 3, /no folder/],
      [['build', at('held.csv'), '--full', '1'], 2, /beyond 1/],
      [['predict', at('bad.json'), '--rgb', '1,1,1'], 2, /damaged or of another kind/],
      [['predict', 'no-such-path', '--rgb', '1,1,1'], 3, /no colour path/],
      [['predict', at('model.json')], 2, /either --rgb or --csv/],
      [['invert', at('model.json'), '--lab', 'x,y,z'], 2, /wants numbers, not “x”/],
    ] as const) {
      const said = dyewright('path', ...words);
      expect(said.code, words.join(' ')).toBe(code);
      expect(said.err).toMatch(sentence);
      expect(said.err).not.toMatch(/ {4}at /);
    }
  });
});

/** The limits the colour path is held to: mean 0.2, largest 1 ΔE00, over colours that no patch stood for. */
async function expectAgreement(icc: Uint8Array, data: InkModelData): Promise<void> {
  const options = {
    source: icc,
    destination: 'lab',
    intent: 'absolute',
    blackPointCompensation: false,
  } as const;
  const seen = refereeConvert(await littleCms(), options, test300);
  const { rows } = await predictColours(data, { sampleIds: [], rgb: test300, lab: null, remarks: [] });
  const off = rows.map((row, i) => deltaE00(row.lab, seen[i] as unknown as Triple));
  expect(mean(off)).toBeLessThan(0.2);
  expect(Math.max(...off)).toBeLessThan(1);
}

function rowsOf(table: MeasurementTable, wanted: (i: number) => boolean): MeasurementTable {
  const some = <T>(rows: readonly T[]): T[] => rows.filter((_, i) => wanted(i));
  return {
    ...table,
    device: { ...table.device, rows: some(table.device.rows) },
    lab: some(table.lab!),
    sampleIds: some(table.sampleIds),
  };
}

/** As a spreadsheet would have it; `blueFull`: the third channel counted otherwise. */
function csvOf(table: MeasurementTable, full: (i: number) => number, blueFull?: number): string {
  return [
    'ID,R,G,B,L,a,b',
    ...table.device.rows.map((rgb, i) =>
      [
        table.sampleIds[i],
        full(i) * rgb[0]!,
        full(i) * rgb[1]!,
        (blueFull ?? full(i)) * rgb[2]!,
        ...table.lab![i]!,
      ].join(),
    ),
  ].join('\n');
}
