import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { copyFileSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  blankSchema,
  colourPathSchema,
  printSetupSchema,
  readBackSchema,
  sheetProposalSchema,
  sheetSchema,
} from '#contract';
import { inventedPrinterProfile } from '#shop/demo';
import { cornersPng, newFolder, scratchOf } from '../shop/fixture.js';

// The program as a person starts it: its own process, a folder of its own, words and exit codes.
const root = path.resolve(import.meta.dirname, '../..');
const { folder, remove } = newFolder();
const shop = path.join(folder, 'shop');
const out = path.join(folder, 'out');
const named = (name: string) => path.join(folder, name);
const artwork = named('corners.png');
const profile = named('invented.icc');
const onTile = ['--blank', 'tile-ceramic-108', '--setup', 'desktop-a4', '--ppi', '100'];

beforeAll(async () => {
  writeFileSync(artwork, await cornersPng(600, 600));
  writeFileSync(profile, inventedPrinterProfile());
});
afterAll(remove);

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function start(args: readonly string[], shopFolder = shop) {
  const child = spawn(process.execPath, ['bin/dyewright.mjs', ...args, '--shop', shopFolder], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NODE_OPTIONS: '', CI: '1' },
  });
  let said = '';
  let complained = '';
  child.stdout.on('data', (chunk) => {
    said += String(chunk);
  });
  child.stderr.on('data', (chunk) => {
    complained += String(chunk);
  });
  const ended = new Promise<Ended>((resolve, reject) => {
    child.on('error', reject);
    child.on('close', (code) => {
      // Whatever happens, nobody is shown the insides.
      if (/\n\s+at .*[:(]\d+|node:internal|Unhandled/.test(said + complained))
        reject(new Error(`the insides were shown: ${said}${complained}`));
      resolve({ code, out: said, err: complained });
    });
  });
  return { child, ended };
}

const run = (...args: string[]): Promise<Ended> => start(args).ended;
/** The one JSON value on standard output. */
async function json(code: number, ...args: string[]) {
  const ended = await run(...args, '--json');
  expect([ended.code, args, ended.err]).toEqual([code, args, expect.any(String)]);
  return JSON.parse(ended.out);
}
async function refused(code: number, problem: string, ...args: string[]): Promise<string> {
  const answer = await json(code, ...args);
  expect(answer.problem).toMatchObject({
    code: problem,
    detail: expect.stringMatching(/\.$/),
    remedy: expect.stringMatching(/\.|\d$/),
  });
  return answer.problem.detail;
}

describe('blanks, print setups, colour paths', () => {
  test('are listed, shown, taken in and removed', async () => {
    const blanks = (await json(0, 'blanks', 'list')).map((one: unknown) => blankSchema.parse(one));
    expect(blanks.length).toBeGreaterThan(10);
    const tile = await json(0, 'blanks', 'show', 'tile-ceramic-108');
    writeFileSync(named('tile.json'), JSON.stringify({ ...tile, id: 'own-tile', name: 'Own tile' }));
    expect(blankSchema.parse(await json(0, 'blanks', 'import', named('tile.json'))).name).toBe('Own tile');
    expect(await json(0, 'blanks', 'remove', 'own-tile')).toEqual({ removed: 'own-tile' });

    for (const setup of await json(0, 'setups', 'list')) printSetupSchema.parse(setup);
    const added = colourPathSchema.parse(
      await json(0, 'paths', 'import', profile, '--name', 'Own', '--setup', 'desktop-a4'),
    );
    expect(added.name).toBe('Own');
    const setup = printSetupSchema.parse(await json(0, 'setups', 'show', 'desktop-a4'));
    expect(setup.colourPathId).toBe(added.id);
    await refused(4, 'record.in-use', 'paths', 'remove', added.id);
    writeFileSync(named('setup.json'), JSON.stringify({ ...setup, colourPathId: null }));
    await json(0, 'setups', 'import', named('setup.json'));
    await json(0, 'paths', 'remove', added.id);
    expect((await json(0, 'paths', 'list')).map(({ id }: { id: string }) => id)).not.toContain(added.id);
  });

  test('what is wrong with them is said', async () => {
    writeFileSync(named('half.json'), '{"id": "half"');
    expect(await refused(2, 'request.invalid', 'blanks', 'import', named('half.json'))).toContain('not JSON');
    writeFileSync(named('half.json'), '{"id": "half"}');
    await refused(2, 'blank.invalid', 'blanks', 'import', named('half.json'));
    await refused(2, 'profile.broken', 'paths', 'import', artwork);
  });
});

describe('sheet', () => {
  test('is looked over, made, put down; the same again is the same', async () => {
    const look = sheetProposalSchema.parse(await json(0, 'sheet', artwork, ...onTile, '--look'));
    expect(look.piecesPlaced).toBe(1);
    expect(existsSync(out)).toBe(false);
    const made = await json(
      0,
      'sheet',
      artwork,
      ...onTile,
      '--format',
      'png',
      '--out',
      path.join(out, 'deep'),
    );
    const sheet = sheetSchema.parse(made.sheet);
    expect(made.written.map((file: string) => path.basename(file)).sort()).toEqual(
      sheet.files.map(({ fileName }) => fileName).sort(),
    );
    for (const { fileName, contentHash } of sheet.files) {
      const bytes = readFileSync(path.join(out, 'deep', fileName));
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(contentHash);
    }
    // A4 at 100 ppi: 210 / 25.4 × 100 and 297 / 25.4 × 100.
    const { width, height } = await sharp(
      made.written.find((name: string) => name.endsWith('.png')),
    ).metadata();
    expect([width, height]).toEqual([827, 1169]);
    const again = await json(
      0,
      'sheet',
      artwork,
      ...onTile,
      '--format',
      'png',
      '--out',
      path.join(out, 'deep'),
    );
    expect([again.sheet.id, again.sheet.createdAt]).toEqual([sheet.id, sheet.createdAt]);
    expect(readdirSync(path.join(out, 'deep')).length).toBe(2);
    expect(scratchOf(shop)).toEqual([]);
  });

  test('that would be wrong is not made, and says why with code 8', async () => {
    const wrong = [
      '--blank',
      'plain-tile-ceramic-108',
      '--setup',
      'desktop-a4',
      '--out',
      path.join(out, 'never'),
    ];
    const proposal = sheetProposalSchema.parse(await json(8, 'sheet', artwork, ...wrong));
    expect(proposal.checks[0]).toMatchObject({ level: 'stop', code: 'blank.uncoated' });
    expect(existsSync(path.join(out, 'never'))).toBe(false);
  });

  test('with what cannot be is refused, each in its way', async () => {
    writeFileSync(named('words.png'), 'just some words');
    mkdirSync(named('folder.png'), { recursive: true });
    await refused(2, 'image.wrong-type', 'sheet', named('words.png'), ...onTile);
    expect(await refused(2, 'request.invalid', 'sheet', named('folder.png'), ...onTile)).toContain('folder');
    await refused(3, 'file.missing', 'sheet', named('nowhere.png'), ...onTile);
    await refused(3, 'record.missing', 'sheet', artwork, '--blank', 'nope', '--setup', 'desktop-a4');
    await refused(2, 'request.invalid', 'sheet', artwork, ...onTile, '--copies', 'many');
    await refused(2, 'request.invalid', 'sheet', artwork, ...onTile, '--copies', '501');
    await refused(2, 'request.invalid', 'sheet', artwork);
    for (const place of [artwork, path.join(artwork, 'below')])
      expect(await refused(6, 'disk.failed', 'sheet', artwork, ...onTile, '--out', place)).toContain(
        'is a file',
      );
    expect(scratchOf(shop)).toEqual([]);
  });

  test('stopped by Ctrl-C in the midst leaves nothing', async () => {
    const place = path.join(out, 'stopped');
    const { child, ended } = start([
      ...['sheet', artwork, ...onTile.slice(0, 4), '--ppi', '1200', '--copies', '2'],
      ...['--format', 'tiff', '--bits', '16', '--out', place],
    ]);
    // Work has begun once something lies in the scratch folder of a job.
    while (child.exitCode === null && !scratchOf(shop).some((name) => name.includes('resampled')))
      await new Promise((resolve) => setTimeout(resolve, 20));
    child.kill('SIGINT');
    expect(await ended).toMatchObject({ code: 7, out: '', err: expect.stringContaining('stopped') });
    expect(readdirSync(place)).toEqual([]);
    expect(scratchOf(shop)).toEqual([]);
  });
});

test('a picture is converted through a profile, or it is said why not', async () => {
  const to = named('converted.tif');
  expect(await json(0, 'convert', artwork, '--path', profile, '--out', to)).toMatchObject({
    widthPixels: 600,
    heightPixels: 600,
  });
  expect((await sharp(to).metadata()).width).toBe(600);
  await refused(2, 'output.unsupported', 'convert', artwork, '--path', profile, '--out', named('x.jpg'));
  await refused(6, 'disk.failed', 'convert', artwork, '--path', profile, '--out', named('no/x.png'));
});

test('a scan is read back: 0 when it is right, 8 when it is not, words when it is no sheet', async () => {
  const example = (name: string) => path.join(root, 'examples', name);
  const right = readBackSchema.parse(await json(0, 'read-back', example('coaster-scan-right.jpg')));
  expect([right.mirroring, right.scale]).toEqual(['right', 'right']);
  const twice = readBackSchema.parse(await json(8, 'read-back', example('coaster-scan-mirrored-twice.jpg')));
  expect(twice.mirroring).toBe('mirrored-twice');
  await refused(2, 'scan.no-marks', 'read-back', example('blank-page-scan.jpg'));
});

describe('serving', () => {
  test('holds the shop alone, answers, and ends on Ctrl-C', async () => {
    const { child, ended } = start(['serve', '--port', '0', '--json']);
    const url = await new Promise<string>((resolve) => {
      let text = '';
      child.stdout.on('data', (chunk) => {
        text += String(chunk);
        if (text.trimEnd().endsWith('}')) resolve(JSON.parse(text).url);
      });
    });
    expect((await (await fetch(`${url}/api/shop`)).json()).folder).toBe(shop);
    await refused(4, 'shop.in-use', 'blanks', 'list');
    child.kill('SIGINT');
    expect((await ended).code).toBe(0);
  });

  test('a port that is none is said', () => refused(2, 'request.invalid', 'serve', '--port', '99999'));
});

describe('words on the line', () => {
  test('people get sentences, help and the version', async () => {
    const [version, help, problem, list] = [
      await run('--version'),
      await run('--help'),
      await run('blanks', 'show', 'nope'),
      await run('blanks'),
    ];
    expect([version.code, version.out.trim()]).toEqual([
      0,
      JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8')).version,
    ]);
    expect([help.code, help.out]).toEqual([0, expect.stringContaining('Exit codes')]);
    expect(problem).toEqual({
      code: 3,
      out: '',
      err: expect.stringMatching(/^There is no blank “nope”\.\n.+\.\n$/),
    });
    expect([list.code, list.out]).toEqual([0, expect.stringContaining('tile-ceramic-108')]);
  });

  test('a mistyped line is said, in JSON when asked for', async () => {
    await refused(2, 'request.invalid', 'nonsense');
    expect(await run('sheet', artwork, '--blnk', 'x')).toMatchObject({ code: 2, out: '' });
  });

  test('a reader that has had enough is no fault', async () => {
    const { child, ended } = start(['blanks', 'list', '--json']);
    child.stdout.destroy();
    expect(await ended).toMatchObject({ code: 0, err: '' });
  });

  test('a program that is not built says so', async () => {
    mkdirSync(named('elsewhere/bin'), { recursive: true });
    copyFileSync(path.join(root, 'bin/dyewright.mjs'), named('elsewhere/bin/dyewright.mjs'));
    const { status, stderr } = spawnSync(process.execPath, [named('elsewhere/bin/dyewright.mjs'), 'blanks']);
    expect([status, String(stderr)]).toEqual([1, expect.stringMatching(/^Dyewright is not built.*\n.*\n$/)]);
  });

  test('a shop that can be none is said', async () => {
    const { code, err } = await start(['blanks'], artwork).ended;
    expect([code, err]).toEqual([6, expect.stringContaining('is a file, not a folder')]);
  });
});
