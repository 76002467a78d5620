import { createHash } from 'node:crypto';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { ContentFiles, type FileSystemPort, nodeFileSystem, type OpenFile, Scratch } from './index.js';

let root = '';
beforeEach(() => {
  root = mkdtempSync(path.join(tmpdir(), 'dyewright-files-'));
});
afterEach(() => rmSync(root, { recursive: true, force: true }));

async function shelf(
  fs: FileSystemPort = nodeFileSystem,
): Promise<{ files: ContentFiles; scratch: Scratch }> {
  const scratch = new Scratch(path.join(root, 'scratch'), fs);
  await nodeFileSystem.mkdir(path.join(root, 'files'));
  await nodeFileSystem.mkdir(path.join(root, 'scratch'));
  return { files: new ContentFiles(path.join(root, 'files'), scratch, fs), scratch };
}

/** Every file under the root, relative. */
function everything(): string[] {
  return readdirSync(root, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.relative(root, path.join(entry.parentPath, entry.name)));
}

const text = (words: string) => new TextEncoder().encode(words);
// FIPS 180-4's example: SHA-256 of 'abc'.
const abcHash = 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad';

function fault(code: string): Error {
  return Object.assign(new Error(code), { code });
}

describe('keeping', () => {
  test('a file stands under its SHA-256, once, and nothing else is left', async () => {
    const { files } = await shelf();
    expect(await files.keep(text('abc'))).toEqual({ hash: abcHash, bytes: 3 });
    expect(await files.keep(text('abc'))).toEqual({ hash: abcHash, bytes: 3 });
    expect(everything()).toEqual([path.join('files', 'ba', abcHash)]);
    expect(new TextDecoder().decode(await files.bytesOf(abcHash))).toBe('abc');
    expect(await files.isWhole(abcHash)).toBe(true);
  });

  test('a stream is hashed as it comes; a finished scratch file is moved, not copied', async () => {
    const { files, scratch } = await shelf();
    const bytes = new Uint8Array(1_000_003).map((_, i) => (i * 31) & 255);
    const hash = createHash('sha256').update(bytes).digest('hex');
    async function* pieces() {
      for (let at = 0; at < bytes.length; at += 70_001) yield bytes.subarray(at, at + 70_001);
    }
    expect(await files.keep(pieces())).toEqual({ hash, bytes: bytes.length });
    const file = scratch.file('pdf');
    writeFileSync(file, 'abc');
    expect(await files.adopt(file)).toEqual({ hash: abcHash, bytes: 3 });
    expect(everything().sort()).toEqual(
      [path.join('files', 'ba', abcHash), path.join('files', hash.slice(0, 2), hash)].sort(),
    );
  });

  test('content that the disk spoiled is noticed, and mended by keeping it again', async () => {
    const { files } = await shelf();
    await files.keep(text('abc'));
    writeFileSync(path.join(root, 'files', 'ba', abcHash), 'abd');
    expect(await files.isWhole(abcHash)).toBe(false);
    await files.keep(text('abc'));
    expect(await files.isWhole(abcHash)).toBe(true);
  });

  test('only a hash names a file: nothing else reaches the disk', async () => {
    const { files } = await shelf();
    for (const name of ['../../etc/passwd', `${abcHash}/../x`, abcHash.toUpperCase(), '', `${abcHash}\0`]) {
      await expect(files.pathOf(name)).rejects.toMatchObject({ code: 'request.invalid' });
    }
    await expect(files.open('0'.repeat(64))).rejects.toMatchObject({ code: 'file.missing' });
  });
});

describe('when the disk fails', () => {
  const failing: { name: string; code: string; fs: FileSystemPort }[] = [
    {
      name: 'full while writing',
      code: 'ENOSPC',
      fs: spoil((file) => ({ ...file, write: () => Promise.reject(fault('ENOSPC')) })),
    },
    {
      name: 'full when syncing',
      code: 'ENOSPC',
      fs: spoil((file) => ({ ...file, sync: () => Promise.reject(fault('ENOSPC')) })),
    },
    {
      name: 'over quota when moving in',
      code: 'EDQUOT',
      fs: { ...nodeFileSystem, rename: () => Promise.reject(fault('EDQUOT')) },
    },
    {
      name: 'read-only',
      code: 'EROFS',
      fs: { ...nodeFileSystem, open: () => Promise.reject(fault('EROFS')) },
    },
    { name: 'broken', code: 'EIO', fs: { ...nodeFileSystem, rename: () => Promise.reject(fault('EIO')) } },
  ];

  test.each(failing)('$name: a sentence, and nothing half-written stays', async ({ code, fs }) => {
    const { files } = await shelf(fs);
    const expected = code === 'ENOSPC' || code === 'EDQUOT' ? 'disk.full' : 'disk.failed';
    await expect(files.keep(text('abc'))).rejects.toMatchObject({
      code: expected,
      remedy: expect.any(String),
    });
    expect(everything()).toEqual([]);
  });

  test('a source that breaks off leaves nothing, and its own error comes through', async () => {
    const { files } = await shelf();
    async function* broken() {
      yield text('ab');
      throw new Error('the line went dead');
    }
    await expect(files.keep(broken())).rejects.toThrow('the line went dead');
    expect(everything()).toEqual([]);
  });

  test('a crash between writing and moving in leaves only scratch, which the next opening clears', async () => {
    // A process that ends there neither renames nor removes.
    const never = () => new Promise<never>(() => undefined);
    const { files, scratch } = await shelf({ ...nodeFileSystem, rename: never, remove: never });
    void files.keep(text('abc'));
    while (everything().length === 0 || readFileSync(path.join(root, everything()[0]!)).length < 3) {
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
    expect(everything()[0]).toMatch(/^scratch/);
    await expect(files.pathOf(abcHash)).rejects.toMatchObject({ code: 'file.missing' });
    await new Scratch(scratch.folder, nodeFileSystem).clear();
    expect(everything()).toEqual([]);
  });
});

test('a scratch folder goes with its work, whether that ends well or badly', async () => {
  const { scratch } = await shelf();
  await scratch.within(async (folder) => writeFileSync(path.join(folder, 'large'), 'x'));
  await expect(
    scratch.within(async (folder) => {
      writeFileSync(path.join(folder, 'large'), 'x');
      throw new Error('no');
    }),
  ).rejects.toThrow('no');
  expect(everything()).toEqual([]);
  expect(readdirSync(scratch.folder)).toEqual([]);
});

function spoil(change: (file: OpenFile) => OpenFile): FileSystemPort {
  return {
    ...nodeFileSystem,
    open: async (name, flags) =>
      flags === 'wx' ? change(await nodeFileSystem.open(name, flags)) : nodeFileSystem.open(name, flags),
  };
}
