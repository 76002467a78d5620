import { writeFileSync } from 'node:fs';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import { readerSchema } from '#contract';
import { writeCgats } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import { newFolder } from '../shop/fixture.js';
import { fileOfCard, photoOfCard } from '../simulator/photo-of-card.js';
import { otherColourants } from '../simulator/virtual-printer.js';
import { virtualReader } from '../simulator/virtual-reader.js';
import { runProgram } from './run.js';

// Each command is a process of its own, and the machine may be busy.
vi.setConfig({ testTimeout: 240_000 });

const { folder, remove } = newFolder();
afterAll(remove);
const run = (...args: string[]) => runProgram(args, path.join(folder, 'shop'));
const [picture, target] = [path.join(folder, 'target.png'), path.join(folder, 'target.txt')];
let corners = '';

beforeAll(async () => {
  const random = createRandom(4);
  const device = Array.from(
    { length: 96 },
    (): Triple => [random.uniform(), random.uniform(), random.uniform()],
  );
  const source = otherColourants(2);
  const light = virtualReader(3, 'xenon').see(source.reflect(device), 2);
  const card = { columns: 12, rows: 8, greys: 0, light, lab: source.print(device) };
  const photo = photoOfCard(card, { perspective: 0.01, seed: 8 });
  const { width, height, data } = photo.picture;
  await sharp(data as Uint8Array, { raw: { width, height, channels: 3 } }).toFile(picture);
  writeFileSync(target, writeCgats(fileOfCard(card), { originator: 'Virtual instrument (invented)' }));
  corners = photo.corners.map(({ x, y }) => `${x.toFixed(1)},${y.toFixed(1)}`).join(',');
});

test('a scanner is added, calibrated by a target, listed and removed', async () => {
  expect(await run('reader', 'add', 'flatbed', '--name', 'Flatbed by the window')).toMatchObject({ code: 0 });
  const calibrated = await run(
    ...['reader', 'calibrate', 'flatbed', target, '--picture', picture, '--corners', corners, '--json'],
  );
  expect([calibrated.code, calibrated.err]).toEqual([0, '']);
  const reader = readerSchema.parse(JSON.parse(calibrated.out));
  expect(reader.calibration).toMatchObject({ by: 'target' });
  const listed = await run('reader', 'list');
  expect(listed.out).toContain('Flatbed by the window');
  expect(listed.out).toContain(reader.calibration!.expectedError.meanDeltaE00.toFixed(1));
  expect(JSON.parse((await run('reader', 'list', '--json')).out)).toEqual([reader]);
  expect((await run('reader', 'remove', 'flatbed')).code).toBe(0);
  expect(JSON.parse((await run('reader', '--json')).out)).toEqual([]);
});

test('words that cannot be are answered with what to write', async () => {
  await run('reader', 'add', 'flatbed');
  const calibrate = (...words: string[]) => run('reader', 'calibrate', 'flatbed', target, ...words);
  expect(await calibrate()).toMatchObject({ code: 2, err: expect.stringContaining('--reading') });
  expect(await calibrate('--picture', picture)).toMatchObject({
    code: 2,
    err: expect.stringContaining('--corners'),
  });
  expect(await calibrate('--picture', picture, '--corners', '0,0,9,0,9,9,0,9')).toMatchObject({ code: 2 });
  expect(await calibrate('--picture', path.join(folder, 'none.png'), '--corners', corners)).toMatchObject({
    code: 3,
  });
  expect(await calibrate('--reading', 'none')).toMatchObject({ code: 3 });
  expect(await run('reader', 'remove', 'nobody')).toMatchObject({ code: 3 });
  expect(await run('reader', 'add', 'lamp', '--kind', 'lamp')).toMatchObject({ code: 2 });
});
