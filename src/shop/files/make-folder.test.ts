import { existsSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { makeFolder } from './make-folder.js';

const root = mkdtempSync(path.join(tmpdir(), 'dyewright-folders-'));
afterAll(() => rmSync(root, { recursive: true, force: true }));

test('makes what is wanting, and is content with what is there', async () => {
  const deep = path.join(root, 'a', 'b', 'c');
  await Promise.all([makeFolder(deep), makeFolder(deep), makeFolder(path.join(root, 'a', 'd'))]);
  await makeFolder(deep);
  expect(statSync(deep).isDirectory()).toBe(true);
});

test('a file in the way is said, wherever it stands', async () => {
  const file = path.join(root, 'file');
  writeFileSync(file, '');
  for (const folder of [file, path.join(file, 'a'), path.join(file, 'a', 'b')]) {
    await expect(makeFolder(folder)).rejects.toMatchObject({
      code: 'disk.failed',
      message: `${file} is a file, not a folder.`,
    });
  }
});

test.skipIf(!existsSync('/proc/self'))(
  'where there can be no folders it says so instead of trying for ever',
  async () => {
    await expect(makeFolder('/proc/nowhere/at/all')).rejects.toMatchObject({ code: 'disk.failed' });
  },
);
