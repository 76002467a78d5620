import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { testSheetProposalSchema, testSheetSchema, testSheetSnapshotSchema } from '#contract';
import { planColourSheet } from '#craft/testsheet';
import { inventedPrinterProfile } from '#shop/demo';
import { form, keptFiles, scratchOf } from '../../tests/shop/fixture.js';
import { json, testServer } from '../../tests/shop/http.js';

const { call, expectProblem, theShop, folder, faults } = testServer();

/** Small paper, few pixels: the tests draw quickly. */
const setupId = 'small';
const order = { kind: 'colour', setupId, blankId: 'aluminium-sheet-200x300', patches: 60, seed: 7 } as const;

beforeAll(async () => {
  const shop = theShop();
  const a4 = await shop.setups.get('desktop-a4');
  const paper = { ...a4.paper, name: 'Small paper', widthMm: 148, heightMm: 210 };
  await shop.setups.save('coarse-a4', { ...a4, id: 'coarse-a4', name: 'Coarse', ppi: 100 });
  await shop.setups.save(setupId, { ...a4, id: setupId, name: 'Small', ppi: 150, paper });
});

async function made(body: object) {
  const answer = await call('POST', '/api/test-sheets', json(body));
  expect([answer.statusCode, answer.body]).toEqual([202, expect.any(String)]);
  const job = await theShop().jobs.finished(answer.json().id);
  expect([job.state, job.problem, faults]).toEqual(['done', null, []]);
  return testSheetSchema.parse((await call('GET', `/api/test-sheets/${job.resultId}`)).json());
}

describe('a proposal', () => {
  const propose = async (more: object) =>
    testSheetProposalSchema.parse(
      (await call('POST', '/api/test-sheets/proposal', json({ ...order, ...more }))).json(),
    );

  test('says how large the patches come out, and on what', async () => {
    const proposal = await propose({});
    expect(proposal).toMatchObject({ possible: true, widthMm: 148, heightMm: 210, patches: 60 });
    expect(proposal.standing).toBe(
      `Ready to print: 60 patches of ${Math.round(10 * proposal.patchMm!) / 10} mm on A5.`,
    );
    expect(proposal.mostPatches).toBeGreaterThan(200);
    const cloth = await propose({ blankId: 'flag-polyester-300x450' });
    expect(cloth.material).toBe('fabric');
    expect(cloth.mostPatches).toBeLessThan(proposal.mostPatches);
  });

  test('what does not fit is said with the most that does', async () => {
    const cloth = { material: 'fabric' };
    const { mostPatches } = await propose(cloth);
    const tooMany = await propose({ ...cloth, patches: mostPatches + 1 });
    expect(tooMany).toMatchObject({ possible: false, mostPatches, patchMm: null });
    expect(tooMany.standing).toContain(String(mostPatches));
    expect((await propose({ ...cloth, patches: mostPatches })).possible).toBe(true);
    expect(await propose({ widthMm: 300 })).toMatchObject({
      possible: false,
      standing: expect.stringContaining('larger than the paper'),
    });
  });

  test('a round blank, a small face and an uncoated one are spoken of', async () => {
    const mug = await propose({ blankId: 'mug-straight-330ml' });
    expect(mug.possible).toBe(true);
    expect(mug.remarks.join(' ')).toMatch(/flat piece of the same coating/);
    const tile = await propose({ blankId: 'tile-ceramic-108' });
    expect(tile.remarks.join(' ')).toContain('108 × 108 mm');
    const cut = await propose({ blankId: 'tile-ceramic-108', widthMm: 108, heightMm: 108 });
    expect(cut.remarks.join(' ')).not.toContain('larger than the face');
    expect(cut.remarks.join(' ')).toContain('cut it out');
    expectProblem(
      await call('POST', '/api/test-sheets/proposal', json({ ...order, blankId: 'plain-tile-ceramic-108' })),
      422,
      'sheet.impossible',
    );
  });

  test('where few patches lie on large paper, the smaller sheet that would do is named', async () => {
    const few = await propose({ setupId: 'desktop-a4', patches: 36 });
    expect(few.remarks.join(' ')).toMatch(/A[56] would do/);
    const [, size, patchMm] = /(A[56]) would do: its patches are ([\d.]+) mm/.exec(few.remarks.join(' '))!;
    const [widthMm, heightMm] = size === 'A6' ? [105, 148] : [148, 210];
    const smaller = await propose({ setupId: 'desktop-a4', patches: 36, widthMm, heightMm });
    expect(smaller.patchMm).toBeCloseTo(Number(patchMm), 1);
    expect((await propose({ setupId: 'desktop-a4', patches: 400 })).remarks.join(' ')).not.toContain(
      'would do',
    );
  });

  test('of a roll only as much is drawn off as the patches want', async () => {
    const roll = await propose({ setupId: 'roll-610', patches: 60 });
    expect(roll).toMatchObject({ possible: true, widthMm: 610 });
    expect(roll.heightMm).toBeLessThan(200);
    expect(roll.patchMm).toBeGreaterThan(7);
  });

  test.each([
    [{ patches: 29 }, 'patches'],
    [{ patches: 901 }, 'patches'],
    [{ seed: 2 ** 21 }, 'seed'],
    [{ kind: 'check' }, 'pathId'],
    [{ kind: 'follow-up', pathId: 'x', patches: 40, towards: 'artwork' }, 'artworkId'],
  ])('%j is refused', async (more, where) => {
    const answer = await call('POST', '/api/test-sheets/proposal', json({ ...order, ...more }));
    expect(expectProblem(answer, 422, 'request.invalid').where).toBe(where);
  });

  test('unknown setups, blanks and paths are named', async () => {
    for (const more of [
      { setupId: 'nowhere' },
      { blankId: 'nothing' },
      { kind: 'check', patches: 36, pathId: 'no-path' },
    ]) {
      expectProblem(
        await call('POST', '/api/test-sheets/proposal', json({ ...order, ...more })),
        404,
        'record.missing',
      );
    }
  });
});

describe('a colour sheet', () => {
  test('is made, recorded, fetched; every patch stands in the file with its own device numbers, mirrored once', async () => {
    const sheet = await made({ order, output: { format: 'png' } });
    expect(sheet).toMatchObject({
      kind: 'colour',
      order,
      material: 'hard',
      widthMm: 148,
      heightMm: 210,
      ppi: 150,
      patches: 60,
      mirroredBy: 'sheet',
      setupName: 'Small',
      pathName: null,
      grey: null,
    });
    expect(sheet.files.map(({ kind, fileName }) => [kind, fileName])).toEqual([
      ['sheet', `colour-sheet-${sheet.id}.png`],
      ['ticket', `colour-sheet-${sheet.id}-ticket.pdf`],
    ]);
    const file = await call('GET', `/api/test-sheets/${sheet.id}/files/${sheet.files[0]!.fileName}`);
    expect(file.headers['content-disposition']).toContain(sheet.files[0]!.fileName);
    // libvips reads the file; the pixel in the middle of each patch, counted from the right.
    const { data, info } = await sharp(file.rawPayload).raw().toBuffer({ resolveWithObject: true });
    expect([info.width, info.height, info.channels]).toEqual([874, 1240, 3]);
    const planned = planColourSheet((await theShop().testSheets.orderOf(sheet.id))!);
    for (const { rect, deviceRgb } of planned.layout.patches) {
      const x = Math.round(((148 - rect.xMm - rect.widthMm / 2) / 25.4) * 150);
      const y = Math.round(((rect.yMm + rect.heightMm / 2) / 25.4) * 150);
      const at = 3 * (y * info.width + x);
      expect([...data.subarray(at, at + 3)]).toEqual([...deviceRgb]);
    }
    const ticket = await call('GET', `/api/test-sheets/${sheet.id}/files/${sheet.files[1]!.fileName}`);
    expect(ticket.rawPayload.subarray(0, 5).toString()).toBe('%PDF-');
    const madeFrom = testSheetSnapshotSchema.parse(
      (await call('GET', `/api/test-sheets/${sheet.id}/made-from`)).json(),
    );
    expect(madeFrom).toMatchObject({
      blank: { id: order.blankId },
      setup: { id: setupId },
      colourPath: null,
    });
    expect((await call('GET', '/api/test-sheets')).json()[0].id).toBe(sheet.id);
    expect(scratchOf(folder)).toEqual([]);
  });

  test('with a seed it is the same again; the same number for another setup is refused; without a seed another', async () => {
    const first = await made({ order, output: { format: 'png' } });
    const again = await made({ order, output: { format: 'png' } });
    expect(again).toEqual(first);
    const other = await call(
      'POST',
      '/api/test-sheets',
      json({ order: { ...order, setupId: 'desktop-a4' } }),
    );
    const job = await theShop().jobs.finished(other.json().id);
    expect(job).toMatchObject({ state: 'failed', problem: { code: 'request.invalid' } });
    expect(job.problem!.detail).toContain('Small');
    const { seed: _, ...unseeded } = order;
    const drawn = await made({ order: unseeded, output: { format: 'png' } });
    expect(drawn.id).not.toBe(first.id);
    expect(drawn.order).toMatchObject({ seed: expect.any(Number) });
  });

  test('its picture is shown before it is made, with an entity tag', async () => {
    const url = `/api/test-sheets/preview?${new URLSearchParams({ order: JSON.stringify(order), view: 'pressed', max: '300' })}`;
    const answer = await call('GET', url);
    expect([answer.statusCode, answer.headers['content-type']]).toEqual([200, 'image/png']);
    const { width, height } = await sharp(answer.rawPayload).metadata();
    expect([width, height]).toEqual([211, 300]);
    const headers = { 'if-none-match': String(answer.headers.etag) };
    expect((await call('GET', url, { headers })).statusCode).toBe(304);
    expectProblem(await call('GET', '/api/test-sheets/preview?order={'), 422, 'request.invalid');
    expectProblem(await call('GET', '/api/test-sheets/preview?order={}'), 422, 'request.invalid');
  });

  test('removed, it and its files are gone', async () => {
    const { seed: _, ...unseeded } = order;
    const sheet = await made({ order: unseeded, output: { format: 'png' } });
    const held = (hash: string) => keptFiles(folder).includes(hash);
    expect(sheet.files.every(({ contentHash }) => held(contentHash))).toBe(true);
    expect((await call('DELETE', `/api/test-sheets/${sheet.id}`)).statusCode).toBe(204);
    expectProblem(await call('GET', `/api/test-sheets/${sheet.id}`), 404, 'record.missing');
    expectProblem(await call('DELETE', `/api/test-sheets/${sheet.id}`), 404, 'record.missing');
    expect(sheet.files.some(({ contentHash }) => held(contentHash))).toBe(false);
  });

  test('what cannot be made is refused before any job, and leaves nothing', async () => {
    const before = keptFiles(folder).length;
    expectProblem(
      await call('POST', '/api/test-sheets', json({ order: { ...order, material: 'fabric', patches: 900 } })),
      422,
      'sheet.impossible',
    );
    expect(keptFiles(folder)).toHaveLength(before);
    expect(scratchOf(folder)).toEqual([]);
  });
});

describe('sheets for a colour path', () => {
  let pathId = '';
  beforeAll(async () => {
    const sent = form({ name: 'invented.icc', bytes: inventedPrinterProfile() }, { name: 'Invented' });
    pathId = (await call('POST', '/api/paths', sent)).json().id;
  });

  test('a check sheet keeps what each patch should be; asked for again it is the same sheet', async () => {
    const check = { kind: 'check', setupId, blankId: order.blankId, pathId, patches: 36 } as const;
    const sheet = await made({ order: check, output: { format: 'png' } });
    expect(sheet).toMatchObject({ kind: 'check', patches: 36, pathName: 'Invented' });
    const wanted = await theShop().testSheets.wantedOf(sheet.id);
    expect(wanted).toHaveLength(36);
    const planned = (await theShop().testSheets.orderOf(sheet.id))!;
    expect(planned.patches).toHaveLength(36);
    expect(wanted!.map(({ chosen }) => chosen)).toEqual(planned.patches.map((_, i) => i));
    // Neutrals are wanted without colour, whatever device numbers make them.
    for (const { relativeLab, kind } of wanted!)
      if (kind === 'neutral') expect(Math.hypot(relativeLab[1], relativeLab[2])).toBeLessThan(1);
    expect((await made({ order: check, output: { format: 'png' } })).createdAt).toBe(sheet.createdAt);
  });

  test('a grey sheet says its rows, a palette its colours, and neither is read by a scan', async () => {
    const grey = await made({
      order: { kind: 'grey', setupId: 'coarse-a4', blankId: order.blankId },
      output: { format: 'png' },
    });
    expect(grey.grey!.rows.length).toBeGreaterThan(2);
    expect(grey.grey!.tone.map(({ question }) => question).sort()).toEqual([
      'from-black',
      'from-white',
      'like-card',
    ]);
    expect(await theShop().testSheets.orderOf(grey.id)).toBeNull();
    const colours = [
      { hex: '#3366cc', name: 'Club blue' },
      { hex: '#cc6633', name: 'Rust' },
    ];
    const palette = await made({
      order: { kind: 'palette', setupId: 'coarse-a4', blankId: order.blankId, pathId, colours },
      output: { format: 'png' },
    });
    expect(palette.patches).toBe(2);
    expect((await theShop().testSheets.fieldsOf(palette.id))!.length).toBeGreaterThanOrEqual(2);
  });

  test('the file of a sheet that was lost is made anew', async () => {
    const check = { kind: 'check', setupId, blankId: order.blankId, pathId, patches: 36 } as const;
    const sheet = await made({ order: check, output: { format: 'png' } });
    const { hash } = { hash: sheet.files[0]!.contentHash };
    const at = `${folder}/files/${hash.slice(0, 2)}/${hash}`;
    const bytes = await readFile(at);
    await (await import('node:fs/promises')).rm(at);
    expectProblem(
      await call('GET', `/api/test-sheets/${sheet.id}/files/${sheet.files[0]!.fileName}`),
      404,
      'file.missing',
    );
    await made({ order: check, output: { format: 'png' } });
    expect(await readFile(at)).toEqual(bytes);
  });
});
