/** The measuring round from the command line: readings to a path, a check sheet to a verdict. The printer is simulated. */
import { spawnSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { pathCheckSchema } from '#contract';
import type { Triple } from '#craft/colour';
import { parseProfile } from '#craft/icc';
import type { Shop } from '#shop';
import { newFolder, openTestShop } from '../shop/fixture.js';
import { cgatsOf } from '../simulator/measured-file.js';
import { dyeOnCoating, measured } from '../simulator/virtual-printer.js';
import { tableOf } from '../simulator/virtual-printer-comparison.js';

const { folder, remove } = newFolder();
afterAll(() => remove());
const at = (name: string): string => path.join(folder, name);
const shopFolder = at('shop');
const printer = dyeOnCoating(4);
const about = { setupId: 'desktop-a4', blankId: 'tile-ceramic-152' };

function dyewright(...words: string[]) {
  const root = path.resolve(import.meta.dirname, '../..');
  const run = spawnSync(
    process.execPath,
    [path.join(root, 'bin/dyewright.mjs'), '--shop', shopFolder, ...words],
    { encoding: 'utf8' },
  );
  return { code: run.status, out: run.stdout, err: run.stderr, json: () => JSON.parse(run.stdout) };
}

/** The command line has the shop to itself, so this process lets it go each time. */
async function inShop<T>(use: (shop: Shop) => Promise<T>): Promise<T> {
  const { shop } = await openTestShop({ folder: shopFolder });
  try {
    return await use(shop);
  } finally {
    await shop.close();
  }
}

/** A sheet made, printed and measured: its id and the instrument's file. */
async function measuredSheet(shop: Shop, order: object, seed: number): Promise<{ id: string; file: string }> {
  const { id } = await shop.testSheets.make({ ...about, ...order }, { format: 'png' });
  const rgb: Triple[] = [
    ...(await shop.testSheets.orderOf(id))!.patches.map((patch) => patch.rgb),
    [1, 1, 1],
  ];
  const file = at(`${seed}.txt`);
  writeFileSync(file, cgatsOf(tableOf(rgb, measured(printer.print(rgb), 0.4, seed))));
  return { id, file };
}

test('a path from readings, shown, checked by a second print, and shown again', async () => {
  const first = await inShop(async (shop) => {
    const setup = await shop.setups.get(about.setupId);
    await shop.setups.save(setup.id, { ...setup, ppi: 72 });
    return measuredSheet(shop, { kind: 'colour', patches: 60, seed: 9 }, 1);
  });
  const read = dyewright('read', first.file, '--instrument', '--sheet', first.id, '--keep', '--json');
  expect(read.err).toBe('');
  const readingId = read.json().reading?.id ?? read.json().id;
  const built = dyewright(
    'path',
    'build',
    '--reading',
    readingId,
    '--name',
    'Tile, spring',
    '--setup',
    about.setupId,
    '--out',
    at('tile.icc'),
  );
  expect(built.err).toBe('');
  expect(built.out).toMatch(
    /^Kept “Tile, spring” as tile-spring\.\nGrade A \(measured by an instrument\), \d+ patches/,
  );
  expect(parseProfile(readFileSync(at('tile.icc'))).header.deviceClass).toBe('prtr');
  expect(dyewright('path', 'show', 'tile-spring').out).toMatch(
    /It fits how things are printed and pressed now\.\nNot checked yet\./,
  );

  const none = dyewright('path', 'verify', 'tile-spring', '--measurements', first.file);
  expect(none.code).toBe(2);
  expect(none.err).toContain('No check sheet was made for this path yet.');

  const check = await inShop((shop) =>
    measuredSheet(shop, { kind: 'check', pathId: 'tile-spring', patches: 36 }, 2),
  );
  // There is only one check sheet of this path: it need not be named.
  const verified = dyewright('path', 'verify', 'tile-spring', '--measurements', check.file, '--json');
  expect(verified.err).toBe('');
  const found = pathCheckSchema.parse(verified.json());
  expect(found).toMatchObject({ sheetId: check.id, grade: 'A', verdict: 'good' });
  expect(found.overall.mean).toBeLessThan(1.5);
  const again = dyewright('path', 'verify', 'tile-spring', '--reading', found.readingId);
  expect(again.out).toMatch(/\nGood: colours come out \d\.\d ΔE00 from what was asked, on average\./);
  expect(again.out).toMatch(/\nwithin reach +\d+ +\d\.\d\d/);
  const shown = dyewright('path', 'show', 'tile-spring', '--json').json();
  expect(shown.checks).toHaveLength(1);
  expect(shown.standing).toMatchObject({ standing: 'fits', lastCheck: { id: found.id } });
}, 240_000);

test('what does not go together is said in words', () => {
  for (const [words, sentence] of [
    [['path', 'verify', 'x'], 'Give one thing to check by.'],
    [['path', 'verify', 'x', 'scan.png', '--reading', 'y'], 'Give one thing to check by.'],
    [['path', 'build'], 'Give either a file of measurements or --reading.'],
    [
      ['path', 'build', '--reading', 'y', '--no-keep'],
      '--no-keep, --full and --grade do not go with --reading.',
    ],
  ] as const) {
    const run = dyewright(...words);
    expect(run.code).toBe(2);
    expect(run.err).toContain(sentence);
  }
}, 60_000);
