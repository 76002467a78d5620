import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Artwork, Job, ReadBack, Sheet, SheetProposal } from '#contract';
import type { Shop } from '#shop';
import { inventedPrinterProfile } from '#shop/demo';
import { cornersPng, form, newFolder, openTestShop, scratchOf } from '../../tests/shop/fixture.js';
import { type RunningServer, startServer } from './index.js';

const { folder, remove } = newFolder();
let shop: Shop;
let server: RunningServer;
let faults: unknown[];
let artwork: Artwork;
beforeAll(async () => {
  ({ shop, faults } = await openTestShop({ folder }));
  server = await startServer({ shop, port: 0, onFault: (error) => faults.push(error) });
  const sent = form({ name: 'corners.png', bytes: await cornersPng(600, 600) });
  artwork = await (
    await fetch(`${server.url}/api/artwork`, {
      method: 'POST',
      body: new Uint8Array(sent.payload),
      headers: sent.headers,
    })
  ).json();
  const path = await shop.paths.importIcc(inventedPrinterProfile(), 'Invented');
  const a4 = await shop.setups.get('desktop-a4');
  await shop.setups.save('calibrated-a4', { ...a4, id: 'calibrated-a4', colourPathId: path.id });
});
afterAll(async () => {
  await server.close();
  await shop.close();
  remove();
  expect(faults).toEqual([]);
});

const get = (address: string, init?: RequestInit) => fetch(`${server.url}${address}`, init);
const post = (address: string, value: unknown) =>
  get(address, {
    method: 'POST',
    body: JSON.stringify(value),
    headers: { 'content-type': 'application/json' },
  });
const request = (more: object = {}) => ({
  artworkId: artwork.id,
  blankId: 'slate-coaster-square-100',
  setupId: 'desktop-a4',
  placement: { mode: 'fill' },
  ppi: 100,
  ...more,
});
const preview = (wanted: object, view: string, max = 400) =>
  get(`/api/sheets/preview?request=${encodeURIComponent(JSON.stringify(wanted))}&view=${view}&max=${max}`);

interface Event {
  readonly name: string;
  readonly job: Job;
}

/** Reads a job's server-sent events to their end (HTML Standard, 9.2.6). */
async function eventsOf(job: Job): Promise<Event[]> {
  const answer = await get(`/api/jobs/${job.id}/events`);
  expect(answer.headers.get('content-type')).toMatch(/^text\/event-stream/);
  const text = await answer.text();
  return text
    .split('\n\n')
    .filter((block) => block.startsWith('event: '))
    .map((block) => {
      const [, name, data] = /^event: (\S+)\ndata: (.*)$/.exec(block) ?? [];
      return { name: name!, job: JSON.parse(data!) };
    });
}

describe('a sheet over HTTP', () => {
  test('is proposed, shown, made, told about, and fetched', async () => {
    const proposal: SheetProposal = await (await post('/api/sheets/proposal', request({ copies: 2 }))).json();
    expect(proposal).toMatchObject({
      piecesPlaced: 2,
      sheetWidthMm: 210,
      sheetHeightMm: 297,
      colour: { calibrated: false, unreachableShare: null },
    });
    expect(proposal.standing).toMatch(/\.$/);
    const answer = await post('/api/sheets', { request: request({ copies: 2 }), output: { format: 'pdf' } });
    expect(answer.status).toBe(202);
    const job: Job = await answer.json();
    const events = await eventsOf(job);
    expect(events.at(-1)).toMatchObject({ name: 'done', job: { state: 'done', progress: 1, problem: null } });
    expect(events.slice(0, -1).every((event) => event.name === 'progress')).toBe(true);
    // Opened again after the end, the stream tells the end at once: a lost connection loses nothing.
    expect((await eventsOf(job)).map((event) => event.name)).toEqual(['done']);

    const sheet: Sheet = await (await get(`/api/sheets/${events.at(-1)!.job.resultId}`)).json();
    expect(sheet).toMatchObject({
      mirroredBy: 'sheet',
      widthMm: 210,
      heightMm: 297,
      ppi: 100,
      calibrated: false,
      artworkName: 'corners.png',
    });
    const asTyped = `${sheet.id.slice(0, 5)}-${sheet.id.slice(5)}`.toLowerCase();
    expect(await (await get(`/api/sheets/${asTyped}`)).json()).toEqual(sheet);
    expect(sheet.files.map((file) => file.kind)).toEqual(['sheet', 'ticket']);
    for (const file of sheet.files) {
      const fetched = await get(`/api/sheets/${sheet.id}/files/${file.fileName}`);
      expect(fetched.headers.get('content-type')).toBe('application/pdf');
      expect(fetched.headers.get('content-disposition')).toBe(`attachment; filename="${file.fileName}"`);
      const bytes = Buffer.from(await fetched.arrayBuffer());
      expect(bytes.subarray(0, 5).toString()).toBe('%PDF-');
      expect(bytes.length).toBe(file.bytes);
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(file.contentHash);
    }
    expect((await get(`/api/sheets/${sheet.id}/files/shop.sqlite`)).status).toBe(404);
    expect(((await (await get('/api/sheets')).json()) as Sheet[]).map((one) => one.id)).toContain(sheet.id);
    expect(scratchOf(folder)).toEqual([]);
  });

  test('asked for again is the same sheet, found and not made; anything changed is another', async () => {
    const make = async (more: object, output: object = {}) => {
      const job: Job = await (await post('/api/sheets', { request: request(more), output })).json();
      return (await eventsOf(job)).at(-1)!.job.resultId!;
    };
    const first = await make({ ppi: 72 });
    const made = (await shop.sheets.get(first)).createdAt;
    expect(await make({ ppi: 72 })).toBe(first);
    expect((await shop.sheets.get(first)).createdAt).toBe(made);
    expect(await make({ ppi: 73 })).not.toBe(first);
    expect(await make({ ppi: 72 }, { format: 'png' })).not.toBe(first);
  });

  test('previews: mirrored on paper, right way as pressed, the very same picture not sent twice', async () => {
    const paper = await preview(request(), 'paper');
    expect(paper.headers.get('content-type')).toBe('image/png');
    const tag = paper.headers.get('etag')!;
    expect(
      (await get(paper.url.slice(server.url.length), { headers: { 'if-none-match': tag } })).status,
    ).toBe(304);
    const pressed = await (await preview(request(), 'pressed')).arrayBuffer();
    const { data, info } = await sharp(pressed).removeAlpha().raw().toBuffer({ resolveWithObject: true });
    const at = (x: number, y: number) => [
      ...data
        .subarray((Math.floor(y * info.height) * info.width + Math.floor(x * info.width)) * 3)
        .subarray(0, 3),
    ];
    // cornersPng: red top left, blue top right, green bottom left.
    expect(at(0.25, 0.25)).toEqual([0xc0, 0x30, 0x20]);
    expect(at(0.75, 0.25)).toEqual([0x20, 0x60, 0xc0]);
    expect(at(0.25, 0.75)).toEqual([0x20, 0xa0, 0x60]);
    const sheet = await sharp(await paper.arrayBuffer())
      .removeAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const places = (rgb: number[]) => {
      let sum = 0;
      let count = 0;
      for (let i = 0; i < sheet.data.length; i += 3) {
        if (rgb.every((value, channel) => sheet.data[i + channel] === value)) {
          sum += (i / 3) % sheet.info.width;
          count += 1;
        }
      }
      return { meanX: sum / count, count };
    };
    const red = places([0xc0, 0x30, 0x20]);
    const blue = places([0x20, 0x60, 0xc0]);
    expect(red.count).toBeGreaterThan(500);
    expect(red.meanX).toBeGreaterThan(blue.meanX);
  });

  test('a colour path is used, said, and what it cannot reach is counted and mapped', async () => {
    const wanted = request({ setupId: 'calibrated-a4' });
    const proposal: SheetProposal = await (await post('/api/sheets/proposal', wanted)).json();
    expect(proposal.colour).toMatchObject({ calibrated: true, pathName: 'Invented' });
    expect(proposal.colour.unreachableShare).toBeGreaterThanOrEqual(0);
    expect(proposal.colour.unreachableShare).toBeLessThanOrEqual(1);
    expect((await preview(wanted, 'reach')).status).toBe(200);
    const without = await preview(request(), 'reach');
    expect([without.status, (await without.json()).code]).toEqual([422, 'request.invalid']);
  });

  test('a job that is cancelled ends as cancelled and leaves nothing', async () => {
    const before = (await shop.sheets.list()).length;
    const job: Job = await (
      await post('/api/sheets', {
        request: request({ ppi: 1200, copies: 2, blankId: 'tile-ceramic-108' }),
        output: { format: 'tiff', bitsPerSample: 16 },
      })
    ).json();
    const events = eventsOf(job);
    while ((await shop.jobs.get(job.id)).state === 'waiting')
      await new Promise((resolve) => setTimeout(resolve, 5));
    const answer: Job = await (await get(`/api/jobs/${job.id}`, { method: 'DELETE' })).json();
    expect(answer).toMatchObject({ state: 'cancelled', resultId: null });
    expect((await events).at(-1)?.name).toBe('cancelled');
    expect((await shop.sheets.list()).length).toBe(before);
    expect(scratchOf(folder)).toEqual([]);
  });

  test('what cannot be is refused before any work: an uncoated blank, records not there, absurd numbers, no JSON', async () => {
    const refused = async (answer: Response) => [answer.status, (await answer.json()).code];
    expect(
      await refused(await post('/api/sheets', { request: request({ blankId: 'plain-tile-ceramic-108' }) })),
    ).toEqual([422, 'sheet.impossible']);
    expect(
      await refused(await post('/api/sheets', { request: request({ artworkId: '0'.repeat(64) }) })),
    ).toEqual([404, 'record.missing']);
    expect(await refused(await post('/api/sheets', { request: request({ blankId: 'no-such' }) }))).toEqual([
      404,
      'record.missing',
    ]);
    for (const more of [
      { copies: 0 },
      { copies: 1e9 },
      { ppi: 1e6 },
      { bleedMm: -1 },
      { placement: { mode: 'free', scale: 1e9 } },
      { placement: { offsetXMm: 'left' } },
    ]) {
      expect(await refused(await post('/api/sheets/proposal', request(more)))).toEqual([
        422,
        'request.invalid',
      ]);
    }
    expect(
      await refused(await post('/api/sheets', { request: request(), output: { format: 'exe' } })),
    ).toEqual([422, 'request.invalid']);
    expect(await refused(await get('/api/sheets/preview?request=%7B&view=paper'))).toEqual([
      422,
      'request.invalid',
    ]);
    expect(await refused(await preview(request(), 'sideways'))).toEqual([422, 'request.invalid']);
    expect((await get('/api/jobs/nowhere/events')).status).toBe(404);
  });

  test('the blank may change or go: a made sheet keeps what it was made from', async () => {
    const square = await shop.blanks.get('slate-coaster-square-100');
    await shop.blanks.save('passing', { ...square, id: 'passing', name: 'Passing blank' });
    const sheet = await shop.sheets.make(request({ blankId: 'passing', ppi: 72 }), {}, { recordUrl: null });
    await shop.blanks.remove('passing');
    expect(await shop.sheets.get(sheet.id)).toMatchObject({ blankName: 'Passing blank' });
    expect(await (await get(`/api/sheets/${sheet.id}/made-from`)).json()).toMatchObject({
      blank: { name: 'Passing blank', recipe: square.recipe },
      setup: { id: sheet.request.setupId },
    });
  });
});

test('the sheet as written, taken for a scan of its paper, is known and right; turned over by a driver it is told', async () => {
  const sheet = await shop.sheets.make(request({ ppi: 200 }), { format: 'png' });
  const file = await shop.sheets.openFile(sheet.id, sheet.files[0]!.fileName);
  const read = async (bytes: Buffer, subject: string) => {
    const sent = form({ name: 'scan.png', bytes }, { subject });
    const answer = await get('/api/read-back', {
      method: 'POST',
      body: new Uint8Array(sent.payload),
      headers: sent.headers,
    });
    return (await answer.json()) as ReadBack;
  };
  const right = await read(await readFile(file.path), 'paper');
  expect(right).toMatchObject({
    sheetId: sheet.id,
    sheetKnown: true,
    fileMirrored: true,
    mirroring: 'right',
    scale: 'right',
  });
  expect(right.sentences.at(-1)).toContain('corners.png');
  const turned = await sharp(file.path).flop().withMetadata({ density: 200 }).png().toBuffer();
  expect(await read(turned, 'paper')).toMatchObject({ sheetId: sheet.id, mirroring: 'mirrored-twice' });
  expect(await read(turned, 'piece')).toMatchObject({ sheetId: sheet.id, mirroring: 'right' });
});

test('closing the server ends open event streams', async () => {
  const held = await shop.jobs.start({
    kind: 'make-sheet',
    key: 'held',
    work: ({ signal }) =>
      new Promise((_, reject) => signal.addEventListener('abort', () => reject(signal.reason))),
  });
  const second = await startServer({ shop, port: 0 });
  const stream = await fetch(`${second.url}/api/jobs/${held.id}/events`);
  const reading = stream.text().then(
    () => 'ended',
    () => 'ended',
  );
  await second.close();
  expect(await reading).toBe('ended');
  await expect(fetch(`${second.url}/api/shop`)).rejects.toThrow();
  await shop.jobs.cancel(held.id);
});

test('a taken port is said to be taken', async () => {
  const port = Number(new URL(server.url).port);
  await expect(startServer({ shop, port })).rejects.toMatchObject({
    code: 'shop.in-use',
    message: expect.stringContaining(String(port)),
  });
});
