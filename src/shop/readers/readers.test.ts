import { readdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import sharp from 'sharp';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readerSchema } from '#contract';
import { writeCgats } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import type { ReaderSample } from '#craft/reader';
import type { Shop } from '#shop';
import { newFolder, openTestShop } from '../../../tests/shop/fixture.js';
import { fileOfCard, photoOfCard } from '../../../tests/simulator/photo-of-card.js';
import { dyeOnCoating, otherColourants } from '../../../tests/simulator/virtual-printer.js';
import { virtualReader } from '../../../tests/simulator/virtual-reader.js';
import {
  chartColours,
  errorsOf,
  judgedColours,
  pairing,
  summary,
} from '../../../tests/simulator/virtual-reader-comparison.js';

const seenBy = virtualReader(3, 'white LED');
const printer = dyeOnCoating(1);
const samples: ReaderSample[] = pairing(printer, seenBy, chartColours(60, 3), 3).samples;
const judged = pairing(printer, seenBy, judgedColours(80, 3), 4);
const scanner = { name: 'Flatbed by the window', kind: 'scanner', note: 'no automatic exposure' } as const;
const sameInk = { by: 'same-ink', samples, setupName: 'Desk printer', remarks: [] } as const;

let shop: Shop;
let folder: string;
let remove: () => void;
beforeEach(async () => {
  ({ folder, remove } = newFolder());
  ({ shop } = await openTestShop({ folder }));
});
afterEach(async () => {
  await shop.close();
  remove();
});

const codeOf = (work: Promise<unknown>): Promise<string> =>
  work.then(
    () => 'taken',
    (error: { code?: string }) => error.code ?? String(error),
  );
const keptFiles = (): string[] =>
  readdirSync(path.join(folder, 'files'), { recursive: true, encoding: 'utf8' }).filter(
    (name) => path.basename(name).length === 64,
  );

describe('scanners and phones of a shop', () => {
  it('are added, changed, listed by name and removed', async () => {
    const reader = await shop.readers.put('flatbed', scanner);
    expect(readerSchema.parse(reader)).toEqual(reader);
    await shop.readers.put('an-old-phone', { name: 'An old phone', kind: 'phone' });
    await shop.readers.put('flatbed', { ...scanner, note: '' });
    expect((await shop.readers.list()).map(({ id, note }) => [id, note])).toEqual([
      ['an-old-phone', ''],
      ['flatbed', ''],
    ]);
    await shop.readers.remove('flatbed');
    expect(await codeOf(shop.readers.get('flatbed'))).toBe('record.missing');
    expect(await codeOf(shop.readers.remove('flatbed'))).toBe('record.missing');
  });

  it('are refused under other ids and with other fields than can be', async () => {
    expect(await codeOf(shop.readers.put('A/b', scanner))).toBe('request.invalid');
    expect(await codeOf(shop.readers.put('a', { ...scanner, kind: 'lamp' }))).toBe('request.invalid');
    expect(await codeOf(shop.readers.put('a', null))).toBe('request.invalid');
    expect(await shop.readers.list()).toEqual([]);
  });
});

describe('calibrating', () => {
  it('by pairs of the same ink keeps a map that reads to less than 1.7 (US 7,719,716), and only the newest', async () => {
    expect(await shop.readers.mapOf(await shop.readers.put('flatbed', scanner))).toBeNull();
    const once = await shop.readers.calibrate('flatbed', { ...sameInk, samples: samples.slice(0, 40) });
    const reader = await shop.readers.calibrate('flatbed', sameInk);
    expect(readerSchema.parse(reader)).toEqual(await shop.readers.get('flatbed'));
    expect(reader.calibration).toMatchObject({ by: 'same-ink', samples: 60, setupName: 'Desk printer' });
    const map = (await shop.readers.mapOf(reader))!;
    expect(summary(errorsOf(map, judged)).meanDeltaE00).toBeLessThan(1.7);
    expect(map.expectedError).toEqual(reader.calibration!.expectedError);
    expect(keptFiles().some((file) => file.endsWith(once.calibration!.mapHash))).toBe(false);
    expect(keptFiles().some((file) => file.endsWith(reader.calibration!.mapHash))).toBe(true);
  });

  it('stays when its name changes, and goes when it becomes another thing', async () => {
    await shop.readers.put('flatbed', scanner);
    await shop.readers.calibrate('flatbed', sameInk);
    expect((await shop.readers.put('flatbed', { ...scanner, name: 'New name' })).calibration).not.toBeNull();
    expect((await shop.readers.put('flatbed', { ...scanner, kind: 'phone' })).calibration).toBeNull();
    expect(keptFiles()).toEqual([]);
  });

  it('says of a phone that it holds for this light', async () => {
    await shop.readers.put('phone', { name: 'Phone', kind: 'phone' });
    const { calibration } = await shop.readers.calibrate('phone', sameInk);
    expect(calibration!.remarks.join()).toContain('same light');
  });

  it('that fails leaves everything as it was', async () => {
    await shop.readers.put('flatbed', scanner);
    const before = await shop.readers.calibrate('flatbed', sameInk);
    const files = keptFiles();
    const moved = samples.map((sample, i) => ({ ...sample, lab: samples[(i + 7) % samples.length]!.lab }));
    expect(await codeOf(shop.readers.calibrate('flatbed', { ...sameInk, samples: moved }))).toBe(
      'chart.unusable',
    );
    expect(await codeOf(shop.readers.calibrate('nobody', sameInk))).toBe('record.missing');
    expect(await shop.readers.get('flatbed')).toEqual(before);
    expect(keptFiles()).toEqual(files);
  });

  it('tells when its kept map is damaged', async () => {
    await shop.readers.put('flatbed', scanner);
    const reader = await shop.readers.calibrate('flatbed', sameInk);
    const file = path.join(folder, 'files', keptFiles()[0]!);
    for (const content of [
      '',
      '{"format":"dyewright-reader-map"',
      '{"format":"dyewright-reader-map","version":1}',
    ]) {
      writeFileSync(file, content);
      expect(await codeOf(shop.readers.mapOf(reader))).toBe('chart.unusable');
    }
  });
});

describe('calibrating by a picture of a target', () => {
  const random = createRandom(4);
  const device = Array.from(
    { length: 96 },
    (): Triple => [random.uniform(), random.uniform(), random.uniform()],
  );
  const source = otherColourants(2);
  const card = {
    columns: 12,
    rows: 8,
    greys: 0,
    light: seenBy.see(source.reflect(device), 2),
    lab: source.print(device),
  };
  const reference = new TextEncoder().encode(
    writeCgats(fileOfCard(card), { originator: 'Virtual instrument (invented)' }),
  );
  const photo = photoOfCard(card, { turn: 2, perspective: 0.01, seed: 8 });
  const { width, height, data } = photo.picture;
  const asPng = sharp(data as Uint8Array, { raw: { width, height, channels: 3 } }).png();

  it('takes the picture, its corners and the target’s file', async () => {
    await shop.readers.put('flatbed', scanner);
    const given = { source: await asPng.toBuffer(), corners: photo.corners, reference };
    const reader = await shop.readers.calibrateFromTarget('flatbed', given);
    expect(reader.calibration).toMatchObject({ by: 'target', setupName: null });
    expect(reader.calibration!.samples).toBeGreaterThan(85);
    const map = (await shop.readers.mapOf(reader))!;
    expect(summary(errorsOf(map, judged)).meanDeltaE00).toBeLessThan(
      1.5 * reader.calibration!.expectedError.meanDeltaE00,
    );
  });

  it('refuses other files, other corners and what is no picture', async () => {
    await shop.readers.put('flatbed', scanner);
    const given = { source: await asPng.toBuffer(), corners: photo.corners, reference };
    const tried = (change: object) =>
      codeOf(shop.readers.calibrateFromTarget('flatbed', { ...given, ...change }));
    expect(await tried({ reference: new TextEncoder().encode('hello') })).toBe('measurements.broken');
    expect(await tried({ source: reference })).toBe('image.wrong-type');
    expect(await tried({ source: given.source.subarray(0, 4000) })).toBe('image.unreadable');
    expect(await tried({ corners: [] })).toBe('scan.unclear');
    expect((await shop.readers.get('flatbed')).calibration).toBeNull();
    expect(keptFiles()).toEqual([]);
  });
});
