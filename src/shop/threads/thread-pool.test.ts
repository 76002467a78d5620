import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, afterEach, expect, test } from 'vitest';
import { ThreadPool, type ThreadPoolOptions } from './index.js';

const folder = mkdtempSync(path.join(tmpdir(), 'dyewright-threads-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const root = path.resolve(import.meta.dirname, '../../..');
const at = (file: string) => pathToFileURL(path.join(root, 'dist', file)).href;

const work = `
import { threadWork } from '${at('shop/threads/index.js')}';
import { Problem } from '${at('craft/problem/index.js')}';
export default threadWork(async ({ what }) => {
  switch (what) {
    case 'problem': throw new Problem('profile.broken', 'It is broken.', { remedy: 'Mend it.', where: 'tag 3' });
    case 'disk': throw Object.assign(new Error('no room'), { code: 'ENOSPC' });
    case 'throw': throw 'a word';
    case 'exit': process.exit(0);
    case 'memory': { const all = []; for (;;) all.push(new Array(100_000).fill({ what })); }
    case 'later': setTimeout(() => { throw new Error('out of turn'); }); return new Promise(() => undefined);
    case 'never': return new Promise(() => undefined);
    default: return what;
  }
});
export const louder = threadWork(({ what }) => what.toUpperCase());
`;

const open: ThreadPool[] = [];
function pool(source: string, more: Partial<ThreadPoolOptions> = {}): ThreadPool {
  const file = path.join(folder, `worker-${open.length}.mjs`);
  writeFileSync(file, source);
  const made = new ThreadPool({
    workerFile: pathToFileURL(file).href,
    maxThreads: 1,
    idleMilliseconds: 5000,
    doing: 'Working',
    ...more,
  });
  open.push(made);
  return made;
}
afterEach(() => Promise.all(open.map((one) => one.close())));

const ended = { code: 'internal.fault', message: expect.stringMatching(/^Working failed/) };

test('results come back, from the export asked for', async () => {
  const threads = pool(work, { maxThreads: 2 });
  const all = await Promise.all(['a', 'b', 'c', 'd', 'e'].map((what) => threads.run<string>({ what })));
  expect(all).toEqual(['a', 'b', 'c', 'd', 'e']);
  expect(await threads.run({ what: 'a' }, { name: 'louder' })).toBe('A');
});

test('what the work throws arrives as it was', async () => {
  const threads = pool(work);
  await expect(threads.run({ what: 'problem' })).rejects.toMatchObject({
    name: 'Problem',
    code: 'profile.broken',
    message: 'It is broken.',
    remedy: 'Mend it.',
    where: 'tag 3',
  });
  await expect(threads.run({ what: 'disk' })).rejects.toMatchObject({ code: 'ENOSPC', message: 'no room' });
  await expect(threads.run({ what: 'throw' })).rejects.toThrow('a word');
});

test.each([
  ['cannot be loaded', 'import "./nowhere.mjs";'],
  ['is no program', 'this is not JavaScript'],
  ['throws while loading', 'throw new Error("no");'],
  ['ends while loading', 'process.exit(3);'],
])('a thread whose file %s is said, not waited for; and said again next time', async (_, source) => {
  const threads = pool(source, { maxThreads: 2 });
  const tasks = () => [1, 2, 3].map(() => expect(threads.run({ what: 'a' })).rejects.toMatchObject(ended));
  await Promise.all(tasks());
  await Promise.all(tasks());
});

test('a file that is not there is said', async () => {
  const threads = pool(work, { workerFile: pathToFileURL(path.join(folder, 'gone.mjs')).href });
  await expect(threads.run({ what: 'a' })).rejects.toMatchObject(ended);
});

test.each(['exit', 'later'])(
  'a thread that dies at work (%s) fails its own task; those behind it are done by a new one',
  async (what) => {
    const threads = pool(work);
    const dying = expect(threads.run({ what })).rejects.toMatchObject(ended);
    const behind = [threads.run({ what: 'a' }), threads.run({ what: 'b' })];
    await dying;
    expect(await Promise.all(behind)).toEqual(['a', 'b']);
  },
);

test('a thread out of memory is said so, and the program goes on', async () => {
  const threads = pool(work, { resourceLimits: { maxOldGenerationSizeMb: 20 } });
  const dying = expect(threads.run({ what: 'memory' })).rejects.toMatchObject({
    code: 'internal.fault',
    message: expect.stringContaining('memory'),
  });
  const behind = threads.run({ what: 'a' });
  await dying;
  expect(await behind).toBe('a');
});

test('a cancelled task ends at once, at work or waiting; those behind it are done', async () => {
  const threads = pool(work);
  const first = new AbortController();
  const second = new AbortController();
  const stopped = { code: 'job.cancelled' };
  const atWork = expect(threads.run({ what: 'never' }, { signal: first.signal })).rejects.toMatchObject(
    stopped,
  );
  const waits = expect(threads.run({ what: 'a' }, { signal: second.signal })).rejects.toMatchObject(stopped);
  const behind = threads.run({ what: 'b' });
  second.abort();
  await waits;
  first.abort();
  await atWork;
  expect(await behind).toBe('b');
  await expect(threads.run({ what: 'a' }, { signal: first.signal })).rejects.toMatchObject(stopped);
});

test('closing ends what is under way; later work starts anew', async () => {
  const threads = pool(work);
  const tasks = ['never', 'a'].map((what) =>
    expect(threads.run({ what })).rejects.toMatchObject({ code: 'job.cancelled' }),
  );
  await threads.close();
  await Promise.all(tasks);
  expect(await threads.run({ what: 'a' })).toBe('a');
});
