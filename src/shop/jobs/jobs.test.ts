import { afterEach, beforeEach, expect, test } from 'vitest';
import type { Job } from '#contract';
import { Problem } from '#craft/problem';
import { type OpenDatabase, openDatabase, Records } from '#shop/store';
import { newFolder } from '../../../tests/shop/fixture.js';
import { Jobs } from './index.js';

let place: ReturnType<typeof newFolder>;
let database: OpenDatabase;
let records: Records;
let faults: unknown[];
let jobs: Jobs;
const now = () => new Date('2026-06-01T10:00:00Z');

beforeEach(async () => {
  place = newFolder();
  database = await openDatabase(place.folder);
  records = new Records(database.db);
  faults = [];
  jobs = new Jobs(records, now, (error) => faults.push(error));
});
afterEach(async () => {
  await jobs.close();
  await database.close();
  place.remove();
});

/** A promise and what settles it. */
function gate<T = void>() {
  let open!: (value: T) => void;
  let fail!: (error: unknown) => void;
  const opened = new Promise<T>((resolve, reject) => {
    open = resolve;
    fail = reject;
  });
  return { opened, open, fail };
}
const kind = 'make-sheet' as const;

test('a job waits, works, tells how far it is, and ends with its result; the end is kept', async () => {
  const held = gate();
  const job = await jobs.start({
    kind,
    key: 'a',
    work: async ({ onProgress }) => {
      onProgress(0.25, 'Resampling');
      onProgress(0.1, 'Never back');
      await held.opened;
      return 'SHEET';
    },
  });
  expect(job).toMatchObject({ state: 'waiting', progress: 0, resultId: null });
  const told: Job[] = [];
  await jobs.subscribe(job.id, (state) => told.push(state));
  held.open();
  expect(await jobs.finished(job.id)).toMatchObject({
    state: 'done',
    progress: 1,
    resultId: 'SHEET',
    problem: null,
  });
  const shares = told.map((state) => state.progress);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(told.at(-1)?.state).toBe('done');
  expect(told.filter((state) => state.state === 'done')).toHaveLength(1);
  expect(await new Jobs(records, now, () => undefined).get(job.id)).toMatchObject({
    state: 'done',
    resultId: 'SHEET',
  });
});

test('the same work asked for while it goes on is the same job; afterwards it is a new one', async () => {
  const held = gate();
  let runs = 0;
  const start = () =>
    jobs.start({
      kind,
      key: 'same',
      work: async () => {
        runs += 1;
        await held.opened;
        return null;
      },
    });
  const first = await start();
  expect((await start()).id).toBe(first.id);
  held.open();
  await jobs.finished(first.id);
  expect(runs).toBe(1);
  const later = await start();
  expect(later.id).not.toBe(first.id);
  await jobs.finished(later.id);
  expect(runs).toBe(2);
});

test('jobs run one after another; a waiting one is cancelled without ever starting', async () => {
  const held = gate();
  const order: string[] = [];
  const work = (name: string, wait?: Promise<void>) => async () => {
    order.push(name);
    await wait;
    return name;
  };
  const first = await jobs.start({ kind, key: '1', work: work('first', held.opened) });
  const second = await jobs.start({ kind, key: '2', work: work('second') });
  const third = await jobs.start({ kind, key: '3', work: work('third') });
  const cancelling = jobs.cancel(second.id);
  held.open();
  expect(await cancelling).toMatchObject({ state: 'cancelled', resultId: null, problem: null });
  expect((await jobs.finished(third.id)).state).toBe('done');
  expect((await jobs.get(first.id)).state).toBe('done');
  expect(order).toEqual(['first', 'third']);
});

test('a working job is told to stop and ends as cancelled; one that has ended stays as it ended', async () => {
  const begun = gate();
  const job = await jobs.start({
    kind,
    key: 'long',
    work: ({ signal }) =>
      new Promise((_, reject) => {
        begun.open();
        signal.addEventListener('abort', () =>
          reject(new Problem('job.cancelled', 'Stopped.', { remedy: 'Start again.' })),
        );
      }),
  });
  await begun.opened;
  expect((await jobs.cancel(job.id)).state).toBe('cancelled');
  expect((await jobs.cancel(job.id)).state).toBe('cancelled');
  const done = await jobs.start({ kind, key: 'done', work: async () => 'x' });
  await jobs.finished(done.id);
  expect((await jobs.cancel(done.id)).state).toBe('done');
  expect(faults).toEqual([]);
});

test('a Problem is told as it is; a full disk becomes one; a fault is told without its insides', async () => {
  const run = async (key: string, error: unknown) => {
    const job = await jobs.start({ kind, key, work: () => Promise.reject(error) });
    return (await jobs.finished(job.id)).problem;
  };
  expect(
    await run('p', new Problem('sheet.impossible', 'It does not fit.', { remedy: 'Take larger paper.' })),
  ).toEqual({
    code: 'sheet.impossible',
    title: expect.any(String),
    detail: 'It does not fit.',
    remedy: 'Take larger paper.',
  });
  expect(await run('d', Object.assign(new Error('write'), { code: 'ENOSPC' }))).toMatchObject({
    code: 'disk.full',
  });
  expect(faults).toEqual([]);
  const hidden = await run('f', new Error('secret /home/someone'));
  expect(hidden).toMatchObject({ code: 'internal.fault' });
  expect(JSON.stringify(hidden)).not.toContain('secret');
  expect(faults).toHaveLength(1);
});

test('whoever listens hears the end also when the end cannot be written down', async () => {
  const held = gate();
  const job = await jobs.start({ kind, key: 'x', work: async () => held.opened.then(() => 'x') });
  const told: string[] = [];
  await jobs.subscribe(job.id, (state) => told.push(state.state));
  const put = records.jobs.put;
  while (told.at(-1) !== 'working') await new Promise((resolve) => setTimeout(resolve, 2));
  records.jobs.put = () => Promise.reject(Object.assign(new Error('full'), { code: 'SQLITE_FULL' }));
  held.open();
  while (told.at(-1) === 'working') await new Promise((resolve) => setTimeout(resolve, 2));
  expect(told.at(-1)).toBe('failed');
  records.jobs.put = put;
});

test('what a crash interrupted is said to have failed at the next opening', async () => {
  const held = gate();
  const waiting = await jobs.start({ kind, key: 'w', work: async () => held.opened.then(() => null) });
  expect((await records.jobs.unfinished()).map((job) => job.id)).toEqual([waiting.id]);
  held.open();
  await jobs.finished(waiting.id);
  const job: Job = {
    id: 'crashed',
    kind,
    state: 'working',
    progress: 0.4,
    step: 'Resampling',
    resultId: null,
    problem: null,
  };
  await records.jobs.put(job, 'k', now().toISOString());
  await jobs.recover();
  expect(await jobs.get('crashed')).toMatchObject({
    state: 'failed',
    problem: { detail: expect.stringContaining('stopped') },
  });
  await expect(jobs.get('nowhere')).rejects.toMatchObject({ code: 'record.missing' });
});

test('closing stops what is under way and takes nothing new', async () => {
  const begun = gate();
  const job = await jobs.start({
    kind,
    key: 'long',
    work: ({ signal }) =>
      new Promise((_, reject) => {
        begun.open();
        signal.addEventListener('abort', () => reject(signal.reason));
      }),
  });
  await begun.opened;
  await jobs.close();
  expect((await jobs.get(job.id)).state).toBe('cancelled');
  await expect(jobs.start({ kind, key: 'n', work: async () => null })).rejects.toMatchObject({
    code: 'job.cancelled',
  });
});
