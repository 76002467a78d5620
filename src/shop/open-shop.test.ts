import { mkdirSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { blankSchema, printSetupSchema } from '#contract';
import { cornersPng, keptFiles, newFolder, openTestShop, scratchOf } from '../../tests/shop/fixture.js';
import { type FileSystemPort, nodeFileSystem } from './files/index.js';
import { openShop } from './index.js';

let folder: string;
let remove: () => void;
beforeEach(() => {
  ({ folder, remove } = newFolder());
});
afterEach(() => remove());

describe('opening', () => {
  test('a new folder gets the stock; what a person removes or changes stays so', async () => {
    const first = await openTestShop({ folder });
    const blanks = await first.shop.blanks.list();
    const setups = await first.shop.setups.list();
    expect(blanks.map((blank) => blankSchema.parse(blank))).toEqual(blanks);
    expect(setups.map((setup) => printSetupSchema.parse(setup))).toEqual(setups);
    await first.shop.blanks.remove('tile-ceramic-108');
    const mug = await first.shop.blanks.get('mug-straight-330ml');
    await first.shop.blanks.save(mug.id, {
      ...mug,
      name: 'Our mug, measured',
      shape: { ...mug.shape, diameterMm: 81.4 },
    });
    await first.shop.close();
    const again = await openTestShop({ folder });
    expect((await again.shop.blanks.list()).map((blank) => blank.id)).not.toContain('tile-ceramic-108');
    expect((await again.shop.blanks.get(mug.id)).name).toBe('Our mug, measured');
    expect(await again.shop.blanks.list()).toHaveLength(blanks.length - 1);
    await again.shop.close();
  });

  test('two programs are kept apart, and the refused one changes nothing', async () => {
    const { shop } = await openTestShop({ folder });
    await expect(openShop({ folder })).rejects.toMatchObject({
      code: 'shop.in-use',
      remedy: expect.any(String),
    });
    await shop.preferences.save({ theme: 'dark' });
    await shop.close();
    await (await openTestShop({ folder })).shop.close();
  });

  test('what a crash left half-made is cleared away', async () => {
    await (await openTestShop({ folder })).shop.close();
    mkdirSync(path.join(folder, 'scratch', 'sheet-in-the-making'), { recursive: true });
    writeFileSync(path.join(folder, 'scratch', 'sheet-in-the-making', 'sheet.pdf'), 'half a sheet');
    writeFileSync(path.join(folder, 'scratch', 'upload.tmp'), 'half a picture');
    const { shop } = await openTestShop({ folder });
    expect(scratchOf(folder)).toEqual([]);
    await shop.close();
  });
});

describe('a disk that fails', () => {
  const full: FileSystemPort = {
    ...nodeFileSystem,
    rename: () => Promise.reject(Object.assign(new Error('no space'), { code: 'ENOSPC' })),
  };

  test('full when artwork or a profile is kept: a sentence, no record, nothing half-written', async () => {
    const { shop, faults } = await openTestShop({ folder, fileSystem: full });
    const file = path.join(folder, 'corners.png');
    writeFileSync(file, await cornersPng());
    await expect(shop.artwork.add(file, 'corners.png')).rejects.toMatchObject({
      code: 'disk.full',
      kind: 'disk',
    });
    expect(await shop.artwork.list()).toEqual([]);
    expect(keptFiles(folder)).toEqual([]);
    expect(scratchOf(folder)).toEqual([]);
    expect(faults).toEqual([]);
    await shop.close();
  });

  test('full while a sheet is put away: the job fails in words, no record, nothing left; later it is made', async () => {
    let failing = false;
    const fs: FileSystemPort = {
      ...nodeFileSystem,
      rename: (from, to) => (failing ? full.rename(from, to) : nodeFileSystem.rename(from, to)),
    };
    const { shop } = await openTestShop({ folder, fileSystem: fs });
    const artwork = await shop.artwork.add(once(await cornersPng()), 'c.png');
    const request = { artworkId: artwork.id, blankId: 'tile-ceramic-108', setupId: 'desktop-a4', ppi: 72 };
    const before = keptFiles(folder);
    failing = true;
    const job = await shop.sheets.start(request);
    expect(await shop.jobs.finished(job.id)).toMatchObject({
      state: 'failed',
      problem: { code: 'disk.full' },
    });
    expect(await shop.sheets.list()).toEqual([]);
    expect(keptFiles(folder)).toEqual(before);
    expect(scratchOf(folder)).toEqual([]);
    failing = false;
    expect((await shop.sheets.make(request)).files).toHaveLength(2);
    await shop.close();
  });

  test('a kept file that was lost is said to be lost, and a sheet whose file was lost is made anew', async () => {
    const { shop } = await openTestShop({ folder });
    const artwork = await shop.artwork.add(once(await cornersPng()), 'c.png');
    const request = { artworkId: artwork.id, blankId: 'tile-ceramic-108', setupId: 'desktop-a4', ppi: 72 };
    const sheet = await shop.sheets.make(request);
    const file = sheet.files[0]!;
    const opened = await shop.sheets.openFile(sheet.id, file.fileName);
    await nodeFileSystem.remove(opened.path);
    await expect(shop.sheets.openFile(sheet.id, file.fileName)).rejects.toMatchObject({
      code: 'file.missing',
    });
    const again = await shop.sheets.make(request);
    expect(again.id).toBe(sheet.id);
    // The same inputs give the same bytes.
    expect(again.files[0]!.contentHash).toBe(file.contentHash);
    expect((await shop.sheets.openFile(sheet.id, file.fileName)).bytes).toBe(file.bytes);
    await shop.close();
  });
});

async function* once(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes;
}
