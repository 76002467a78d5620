/** The press bench through its doors, once each: the commands as a person types them, and HTTP as the page calls it. */
import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { EvennessReadingFacts, Job, Ladder } from '#contract';
import { readCouponsPicture } from '#shop/vision';
import { form, newFolder } from '../shop/fixture.js';
import { json, testServer } from '../shop/http.js';
import {
  chanceOf,
  cutCoupon,
  pressedAt,
  pressedSheet,
  scan,
  scanOfCoupons,
  toFile,
  writtenSheet,
} from '../simulator/index.js';
import { runProgram } from './run.js';

vi.setConfig({ testTimeout: 240_000, hookTimeout: 240_000 });

/** A sheet's PNG as written → a scan of its coupons, each pressed at its step. */
async function scanOfLadder(written: Buffer, { plan }: Pick<Ladder, 'plan'>, seed: number): Promise<Buffer> {
  const paper = await writtenSheet(written, 300);
  const { coupons } = await readCouponsPicture(written);
  const pieces = plan.coupons.map(({ number, step }) =>
    pressedAt(cutCoupon(paper, coupons.find((one) => one.number === number)!.reading!.outline), step),
  );
  return toFile(scanOfCoupons(pieces, chanceOf(seed), seed), { format: 'png', ppi: 300 });
}

async function scanOfEvenness(written: Buffer, seed: number): Promise<Buffer> {
  const piece = pressedSheet(await writtenSheet(written, 300), () => ({ platenC: 196, dwellSeconds: 45 }));
  return toFile(scan(piece, { ppi: 200, seed, turnDegrees: 0.5 }), { format: 'png', ppi: 200 });
}

describe('commands', () => {
  const { folder, remove } = newFolder();
  afterAll(remove);
  const named = (name: string): string => path.join(folder, name);
  async function run(code: number, ...args: string[]) {
    const ended = await runProgram([...args, '--json'], named('shop'));
    expect([ended.code, args, ended.err]).toEqual([code, args, expect.any(String)]);
    return JSON.parse(ended.out);
  }
  const plan = ['ladder', 'plan', '--setup', 'desktop-a4', '--blank', 'aluminium-sheet-200x300'];
  let sheetId = '';

  test('plan says what to press; with --out there is a sheet and its ticket', async () => {
    const { proposal, sheet: none } = await run(0, ...plan, '--coupons', '5');
    expect(proposal.ladder.coupons).toHaveLength(5);
    expect(none).toBeNull();
    const ranges = ['--coupons', '5', '--start', '200,50', '--time', '30-75'];
    const { sheet, written } = await run(0, ...plan, ...ranges, '--out', named('ladder.png'));
    expect(written).toEqual([named('ladder.png'), named('ladder-ticket.pdf')]);
    expect(sheet.ladder.coupons.map(({ step }: { step: { platenC: number } }) => step.platenC)).toEqual(
      Array(5).fill(200),
    );
    sheetId = sheet.id;
    const hot = ['--temperature', '190-245'];
    expect((await run(8, ...plan, ...hot)).proposal).toMatchObject({ possible: false, ladder: null });
    const { problem } = await run(2, ...plan, ...hot, '--out', named('hot.png'));
    expect(problem.code).toMatch(/^press\./);
    expect((await run(2, ...plan, '--vary', 'time', '--pressure', '1-2')).problem.code).toBe(
      'request.invalid',
    );
  });

  test('read, note, show, list and black', async () => {
    const shown: Ladder = await run(0, 'ladder', 'show', sheetId);
    expect(shown.window).toBeNull();
    writeFileSync(named('scan.png'), await scanOfLadder(readFileSync(named('ladder.png')), shown, 3));
    const ladder: Ladder = await run(0, 'ladder', 'read', named('scan.png'));
    expect([ladder.sheetId, ladder.pictures[0]!.coupons]).toEqual([sheetId, [1, 2, 3, 4, 5]]);
    expect(ladder.window!.recipe.dwellSeconds).toBeGreaterThan(35);
    // One of those pressed alike: without it there are still as many settings.
    const alike = ladder.coupons.find(
      (one) => ladder.coupons.filter((other) => other.alike === one.alike).length > 1,
    )!.number;
    const noted: Ladder = await run(0, 'ladder', 'note', sheetId, String(alike), '--leave-out');
    expect(noted.coupons.filter(({ leftOut }) => leftOut).map(({ number }) => number)).toEqual([alike]);
    const drawn = await run(0, 'ladder', 'show', sheetId, '--field', '--courses');
    expect(drawn.field.within.length).toBe(drawn.field.platenC.length * drawn.field.dwellSeconds.length);
    expect(drawn.courses.length).toBeGreaterThan(3);
    expect((await run(0, 'ladder', 'list'))[0].sheetId).toBe(sheetId);
    const about = ['--at', '200,20', '--blank', 'aluminium-sheet-200x300'];
    const own = await run(0, 'ladder', 'black', '--by-eye', 'green', ...about);
    expect([own.verdict, own.restsOn]).toEqual(['under', 'own ladder']);
    const { code, out } = await runProgram(['ladder', 'show', sheetId], named('shop'));
    expect([code, out]).toEqual([0, expect.stringMatching(/all is well from/)]);
    expect((await run(3, 'ladder', 'show', 'nowhere')).problem.code).toBe('record.missing');
    // Coupons are no sheet of one tone and no colour chart: both say what they are.
    for (const other of [['evenness', 'read'], ['read']]) {
      const { problem } = await run(2, ...other, named('scan.png'));
      expect([problem.code, problem.remedy]).toEqual([
        'scan.wrong-sheet',
        expect.stringMatching(/ladder read/),
      ]);
    }
    expect((await run(2, 'ladder', 'note', sheetId)).problem.code).toBe('request.invalid');
  });

  test('an evenness sheet made, read, listed and shown', async () => {
    const about = ['--setup', 'desktop-a4', '--blank', 'aluminium-sheet-200x300'];
    const size = ['--width', '148', '--height', '105', '--out', named('even.png')];
    const { sheet } = await run(0, 'evenness', 'sheet', ...about, ...size);
    writeFileSync(named('even-scan.png'), await scanOfEvenness(readFileSync(named('even.png')), 2));
    const reading: EvennessReadingFacts = await run(0, 'evenness', 'read', named('even-scan.png'));
    expect(reading).toMatchObject({ sheetId: sheet.id, surface: 'piece', findings: [{ kind: 'even' }] });
    expect(await run(0, 'evenness', 'list')).toHaveLength(1);
    const { code, out } = await runProgram(['evenness', 'show', reading.id], named('shop'));
    expect([code, out]).toEqual([0, expect.stringMatching(/back of the press/)]);
    await run(0, 'evenness', 'remove', reading.id);
    expect((await run(3, 'evenness', 'show', reading.id)).problem.code).toBe('record.missing');
  });
});

describe('HTTP', () => {
  const { call, expectProblem, theShop } = testServer();
  let ladder: Ladder;
  let bytes: Buffer;

  async function ended(url: string): Promise<Job> {
    const job: Job = JSON.parse((await call('GET', url)).body);
    await theShop().jobs.finished(job.id);
    return JSON.parse((await call('GET', url)).body);
  }

  beforeAll(async () => {
    const shop = theShop();
    const sheet = await shop.testSheets.make(
      {
        kind: 'ladder',
        setupId: 'desktop-a4',
        blankId: 'aluminium-sheet-200x300',
        coupons: 5,
        factors: [{ kind: 'time', low: 30, high: 75 }],
        start: { platenC: 200, dwellSeconds: 50 },
      },
      { format: 'png' },
    );
    const drawn = sheet.files.find(({ kind }) => kind === 'sheet')!;
    bytes = readFileSync((await shop.testSheets.openFile(sheet.id, drawn.fileName)).path);
    ladder = JSON.parse((await call('GET', `/api/ladders/${sheet.id}`)).body);
  });

  test('a picture is read as a job whose result is the ladder; then there are window, field and courses', async () => {
    const scanned = await scanOfLadder(bytes, ladder, 4);
    expectProblem(await call('GET', `/api/ladders/${ladder.sheetId}/field`), 422, 'ladder.unusable');
    const started = await call(
      'POST',
      '/api/ladders/pictures',
      form({ name: 'scan.png', bytes: scanned }, { sheetId: ladder.sheetId }),
    );
    expect(started.statusCode).toBe(202);
    const job = await ended(String(started.headers.location));
    expect(job).toMatchObject({ kind: 'read-ladder', state: 'done', resultId: ladder.sheetId });
    const url = `/api/ladders/${ladder.sheetId}`;
    const read: Ladder = JSON.parse((await call('GET', url)).body);
    expect(read.window).not.toBeNull();
    for (const part of ['field', 'courses']) {
      const { statusCode, body } = await call('GET', `${url}/${part}`);
      expect([statusCode, body.slice(0, 300)]).toEqual([200, expect.any(String)]);
    }
    const notes = await call(
      'POST',
      `${url}/notes`,
      json({ coupons: [{ number: 1, byEye: { black: 'green' } }] }),
    );
    expect(JSON.parse(notes.body).coupons.find((one: { number: number }) => one.number === 1).byEye).toEqual({
      black: 'green',
    });
    const black = json({
      black: { byEye: 'brown' },
      step: { platenC: 200, dwellSeconds: 90 },
      ladderId: ladder.sheetId,
    });
    expect(JSON.parse((await call('POST', '/api/press/black', black)).body)).toMatchObject({
      verdict: 'over',
      ladderId: ladder.sheetId,
    });
    // Brown where the ladder calls it good: the piece was hardly pressed as it is said to have been.
    const { platenC, dwellSeconds } = read.window!.recipe;
    const against = json({
      black: { byEye: 'brown' },
      step: { platenC, dwellSeconds },
      ladderId: ladder.sheetId,
    });
    expect(JSON.parse((await call('POST', '/api/press/black', against)).body).remarks[0]).toMatch(
      /^Your ladder calls .* good/,
    );
    const without = await call('DELETE', `${url}/pictures/${read.pictures[0]!.id}`);
    expect(JSON.parse(without.body)).toMatchObject({ pictures: [], window: null });
    expect((await call('DELETE', url)).statusCode).toBe(204);
  });

  test('wrong words are answered with what is wrong', async () => {
    const url = `/api/ladders/${ladder.sheetId}`;
    expectProblem(await call('GET', '/api/ladders/nowhere'), 404, 'record.missing');
    expectProblem(await call('POST', `${url}/notes`, json({ coupons: [] })), 422, 'request.invalid');
    const hot = json({ coupons: [{ number: 1, pressed: { platenC: 240, dwellSeconds: 40 } }] });
    expectProblem(await call('POST', `${url}/notes`, hot), 422, 'press.unsafe');
    const nobody = form({ name: 'a.png', bytes: Buffer.from('x') }, { sheetId: 'nowhere' });
    expectProblem(await call('POST', '/api/ladders/pictures', nobody), 422, 'request.invalid');
    expectProblem(await call('GET', '/api/evenness/nowhere'), 404, 'record.missing');
    const press = form({ name: 'a.png', bytes: Buffer.from('x') }, { pressId: 'gone' });
    expectProblem(await call('POST', '/api/evenness', press), 404, 'record.missing');
    expectProblem(await call('POST', '/api/press/black', json({})), 422, 'request.invalid');
    const of = (lab: number[], more = {}) =>
      json({ black: { lab }, step: { platenC: 200, dwellSeconds: 50 }, ...more });
    expectProblem(await call('POST', '/api/press/black', of([1e308, 0, 0])), 422, 'request.invalid');
    const gone = of([20, 0, 0], { blankId: 'gone' });
    expectProblem(await call('POST', '/api/press/black', gone), 404, 'record.missing');
    const empty = form({ name: 'a.png', bytes: new Uint8Array(0) });
    for (const at of ['ladders/pictures', 'evenness', 'readings'])
      expectProblem(await call('POST', `/api/${at}`, empty), 422, 'request.invalid');
  });

  test('a broken picture fails its job in words, and leaves nothing', async () => {
    const broken = form({ name: 'a.png', bytes: Buffer.from('no picture') }, { sheetId: ladder.sheetId });
    const started = await call('POST', '/api/ladders/pictures', broken);
    const job = await ended(String(started.headers.location));
    expect(job).toMatchObject({ state: 'failed', problem: { code: expect.stringMatching(/^image\./) } });
    expect((await theShop().ladders.get(ladder.sheetId)).pictures).toEqual([]);
  });
});
