import { readFile } from 'node:fs/promises';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { type TestSheetProposal, testSheetProposalSchema, testSheetSchema } from '#contract';
import { newtonsFor } from '#craft/force';
import { newSheetId } from '#craft/sheet';
import { closeVision, readCouponsPicture, readEvennessPicture } from '#shop/vision';
import { keptFiles } from '../../tests/shop/fixture.js';
import { json, testServer } from '../../tests/shop/http.js';

const { call, expectProblem, theShop, folder, faults } = testServer();
afterAll(closeVision);

const order = { kind: 'ladder', setupId: 'fine', blankId: 'aluminium-sheet-200x300' } as const;
/** Recipe of the blank: 204 °C, 70 s. */
const air = 'flat-400-600-air';

beforeAll(async () => {
  const a4 = await theShop().setups.get('desktop-a4');
  await theShop().setups.save('fine', { ...a4, id: 'fine', name: 'Fine', ppi: 400 });
});

const propose = async (more: object = {}): Promise<TestSheetProposal> => {
  const answer = await call('POST', '/api/test-sheets/proposal', json({ ...order, ...more }));
  expect([answer.statusCode, answer.body]).toEqual([200, expect.any(String)]);
  return testSheetProposalSchema.parse(answer.json());
};

/** Room for nine coupons, few pixels: drawn quickly. */
const smallSheet = { widthMm: 145, heightMm: 150 } as const;

async function made(more: object = {}, format: 'png' | 'pdf' | 'tiff' = 'png') {
  const answer = await call(
    'POST',
    '/api/test-sheets',
    json({ order: { ...order, ...smallSheet, ...more }, output: { format } }),
  );
  expect([answer.statusCode, answer.body]).toEqual([202, expect.any(String)]);
  const job = await theShop().jobs.finished(answer.json().id);
  expect([job.state, job.problem, faults]).toEqual(['done', null, []]);
  const sheet = testSheetSchema.parse((await call('GET', `/api/test-sheets/${job.resultId}`)).json());
  const file = async (kind: 'sheet' | 'ticket') => {
    const { fileName } = sheet.files.find((one) => one.kind === kind)!;
    return readFile((await theShop().testSheets.openFile(sheet.id, fileName)).path);
  };
  return { sheet, file };
}

async function pagesOf(pdf: Uint8Array): Promise<string[]> {
  const task = getDocument({ data: new Uint8Array(pdf) });
  const document = await task.promise;
  const pages: string[] = [];
  for (let i = 1; i <= document.numPages; i += 1) {
    const { items } = await (await document.getPage(i)).getTextContent();
    pages.push(items.map((item) => ('str' in item ? item.str : '')).join(' '));
  }
  await task.destroy();
  return pages;
}

describe('a ladder is proposed', () => {
  test('with its coupons in the order to press, what to set, and where the range comes from', async () => {
    const proposal = await propose();
    expect(proposal).toMatchObject({
      possible: true,
      standing: 'Ready to print: 9 coupons of 45 mm on A4.',
      patches: 9,
      patchMm: 45,
      // No more than a ladder may have, though 24 squares would go on the paper.
      mostPatches: 16,
    });
    const { ladder, remarks } = proposal;
    expect(ladder!.coupons.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(ladder).toMatchObject({ kind: 'ladder', factors: ['time'], offsetK: null, pressId: null });
    const times = ladder!.coupons.map(({ step }) => step.dwellSeconds);
    expect([Math.min(...times), Math.max(...times)]).toEqual([35, 126]);
    expect(remarks.join(' ')).toContain('35 to 126 s): the blank maker’s limits come first');
    expect(remarks.join(' ')).toContain('No press is named');
  });

  test('two factors within the maker’s limits; a narrower range of the person’s', async () => {
    const limits = { platenC: [195, 208], dwellSeconds: [50, 100] };
    const { ladder, remarks } = await propose({
      factors: [{ kind: 'temperature' }, { kind: 'time', low: 55 }],
      coupons: 12,
      limits,
    });
    expect(ladder).toMatchObject({ kind: 'central composite', limits });
    const temperatures = ladder!.coupons.map(({ step }) => step.platenC);
    expect([Math.min(...temperatures), Math.max(...temperatures)]).toEqual([195, 208]);
    const times = ladder!.coupons.map(({ step }) => step.dwellSeconds);
    expect([Math.min(...times), Math.max(...times)]).toEqual([55, 100]);
    // From cool to hot: heating is quicker than cooling.
    expect(temperatures).toEqual(temperatures.toSorted((a, b) => a - b));
    expect(remarks.join(' ')).not.toContain('usual');
  });

  test('what does not fit is said with the most that do, and the sheet that holds them', async () => {
    const cloth = { blankId: 'flag-polyester-300x450', coupons: 16 };
    expect(await propose(cloth)).toMatchObject({
      possible: false,
      mostPatches: 12,
      ladder: null,
      standing: expect.stringMatching(
        /^16 coupons of 62 mm do not fit on A4\. At most 12 fit; A3 holds them/,
      ),
    });
    expect((await propose({ ...cloth, coupons: 12 })).possible).toBe(true);
    expect((await propose({ ...cloth, setupId: 'desktop-a3' })).possible).toBe(true);
    expect((await propose({ ...cloth, coupons: 9, widthMm: 148, heightMm: 210 })).standing).toContain(
      'At most 6 fit; A4 holds them.',
    );
    // Of a roll as much is drawn off as the coupons want.
    const roll = await propose({ ...cloth, setupId: 'roll-610' });
    expect(roll).toMatchObject({ possible: true, widthMm: 610 });
    expect(roll.heightMm).toBeLessThan(200);
  });

  test.each([
    [
      { factors: [{ kind: 'temperature', low: 200, high: 240 }] },
      '240 °C is above the safety bound of 230 °C',
    ],
    [{ start: { platenC: 250, dwellSeconds: 60 } }, '250 °C is above the safety bound'],
    [
      {
        factors: [{ kind: 'time', low: 20, high: 90 }],
        limits: { platenC: [200, 205], dwellSeconds: [40, 90] },
      },
      'leaves what the blank’s maker allows (40 to 90 s)',
    ],
    [{ factors: [{ kind: 'temperature', low: 200, high: 203 }] }, 'too narrow'],
    [{ factors: [{ kind: 'time', low: 90, high: 30 }] }, 'no range'],
    [{ factors: [{ kind: 'pressure' }] }, 'Nobody said which pressures the blank bears'],
    [{ factors: [{ kind: 'time' }, { kind: 'time' }] }, 'the same'],
    [{ couponMm: 30 }, 'could not be read'],
  ])('%j cannot be pressed, and why is said', async (more, words) => {
    const proposal = await propose(more);
    expect(proposal).toMatchObject({ possible: false, ladder: null });
    expect(proposal.standing).toContain(words);
    const answer = await call(
      'POST',
      '/api/test-sheets',
      json({ order: { ...order, ...more }, output: { format: 'png' } }),
    );
    expect(answer.statusCode).toBe(422);
    expect(JSON.parse(answer.body).code).toMatch(/^(press\.|sheet\.impossible)/);
  });

  test('more than the usual range is taken, and said; round blanks, cloth and thick threads are spoken of', async () => {
    const beyond = await propose({ factors: [{ kind: 'time', low: 20, high: 300 }] });
    expect(beyond.possible).toBe(true);
    expect(beyond.remarks[0]).toContain('more than the usual range');
    expect(beyond.ladder!.limits.dwellSeconds).toEqual([20, 300]);
    expect((await propose({ blankId: 'mug-straight-330ml' })).remarks.join(' ')).toContain('flat pieces');
    const round = await propose({ blankId: 'mug-straight-330ml', pressId: 'mug-press' });
    expect(round.remarks.join(' ')).toContain('judge its coupons by eye');
    const fine = await propose({ blankId: 'shirt-polyester-front', material: 'hard' });
    expect(fine.remarks.join(' ')).toContain('coupons for cloth');
    expect((await propose({ pressId: 'mug-press' })).remarks.join(' ')).toContain('presses round things');
  });

  test('a press that is gone, three factors, five hundred coupons: refused', async () => {
    const send = (more: object) => call('POST', '/api/test-sheets/proposal', json({ ...order, ...more }));
    expectProblem(await send({ pressId: 'gone' }), 404, 'record.missing');
    for (const more of [
      { coupons: 500 },
      { coupons: 3 },
      { factors: [] },
      { factors: [{ kind: 'time' }, { kind: 'temperature' }, { kind: 'pressure' }] },
      { limits: { platenC: [190], dwellSeconds: [30, 60] } },
    ])
      expectProblem(await send(more), 422, 'request.invalid');
  });
});

describe('a ladder is made', () => {
  test('mirrored once: every coupon in the file reads as its number, once the paper is turned over', async () => {
    const { sheet, file } = await made({ coupons: 6 });
    expect(sheet).toMatchObject({ kind: 'ladder', patches: 6, patchMm: 45, evenness: null });
    expect(sheet.ladder).toEqual((await propose({ coupons: 6, ...smallSheet })).ladder);
    const kept = (await theShop().testSheets.ladderOrderOf(sheet.id))!;
    expect(kept).toEqual({ sheetId: sheet.id, couponWidthMm: 45, couponHeightMm: 45, material: 'hard' });
    expect(await theShop().testSheets.evennessOrderOf(sheet.id)).toBeNull();
    expect(await theShop().testSheets.orderOf(sheet.id)).toBeNull();
    const piece = await sharp(await file('sheet'))
      .flop()
      .toColourspace('srgb')
      .withMetadata({ density: 400 })
      .png()
      .toBuffer();
    const { coupons } = await readCouponsPicture(piece, {
      expected: {
        sheetId: kept.sheetId,
        widthMm: kept.couponWidthMm,
        heightMm: kept.couponHeightMm,
        material: kept.material,
      },
    });
    const found = coupons.map(({ sheetId, number, mirrorOnWriting }) => [sheetId, number, mirrorOnWriting]);
    expect(found.toSorted((a, b) => Number(a[1]) - Number(b[1]))).toEqual(
      [1, 2, 3, 4, 5, 6].map((number) => [sheet.id, number, true]),
    );
    for (const { reading, refusal } of coupons) expect([refusal, reading?.surface]).toEqual([null, 'piece']);
  });

  test('its ticket lists the coupons to press, and the cautions', async () => {
    const { sheet, file } = await made({ factors: [{ kind: 'time' }, { kind: 'temperature' }] }, 'pdf');
    const [first, second, ...more] = await pagesOf(await file('ticket'));
    expect(more).toEqual([]);
    for (const { setC, step } of sheet.ladder!.coupons) {
      expect(first).toContain(`${setC} °C`);
      expect(first).toContain(`${step.dwellSeconds} s`);
    }
    const changes = first!.match(/wait until the platen has settled/g) ?? [];
    expect(changes).toHaveLength(sheet.ladder!.temperatureChanges + 1);
    expect(first).toContain(`/press/ladders/${sheet.id}`);
    expect(second).toContain('Let the pieces cool wholly');
    expect(second).toMatch(/maker’s instructions .* come before anything/);
    expect(second).toContain('heat gloves');
    expect(second).not.toContain('in the record');
  });

  test('where the press’s drive is known, the gauge’s figure is the thrust over the piston’s area', async () => {
    const more = { pressId: air, coupons: 4, factors: [{ kind: 'pressure', low: 0.3, high: 1.2 }] };
    const { sheet, file } = await made(more, 'pdf');
    const [first] = await pagesOf(await file('ticket'));
    // 200 × 300 mm at so many bar; a bore of 100 mm has 78.54 cm² (tables of cylinders), a tenth is lost to friction.
    for (const { step } of sheet.ladder!.coupons) {
      const gaugeBar = newtonsFor(step.pressureBar! * 1e5, 600) / (78.54e-4 * 1e5 * 0.9);
      expect(first).toContain(`gauge ${gaugeBar.toFixed(gaugeBar < 9.95 ? 1 : 0)} bar`);
    }
  });

  test('asked for again it is the same sheet; once its coupons tell something, another', async () => {
    const again = { coupons: 4 };
    const { sheet } = await made(again);
    expect((await made(again)).sheet).toEqual(sheet);
    await theShop().ladders.note(sheet.id, { coupons: [{ number: 1, byEye: { black: 'green' } }] });
    const next = (await made(again)).sheet;
    expect(next.id).not.toBe(sheet.id);
    expect(next.ladder).toEqual(sheet.ladder);
    expect((await made(again)).sheet.id).toBe(next.id);
  });

  test('removed, it and its files are gone', async () => {
    const { sheet } = await made({ coupons: 5 });
    expect((await call('DELETE', `/api/test-sheets/${sheet.id}`)).statusCode).toBe(204);
    for (const { contentHash } of sheet.files) expect(keptFiles(folder)).not.toContain(contentHash);
    expect(await theShop().testSheets.ladderOrderOf(sheet.id)).toBeNull();
  });

  test('a preview shows the paper mirrored and the piece as it reads', async () => {
    const url = (view: string) =>
      `/api/test-sheets/preview?order=${encodeURIComponent(JSON.stringify(order))}&view=${view}&max=300`;
    const [paper, piece] = await Promise.all([call('GET', url('paper')), call('GET', url('pressed'))]);
    expect([paper.statusCode, piece.statusCode]).toEqual([200, 200]);
    const turned = await sharp(paper.rawPayload).flop().removeAlpha().greyscale().raw().toBuffer();
    const straight = await sharp(piece.rawPayload)
      .flatten({ background: '#fff' })
      .greyscale()
      .raw()
      .toBuffer();
    const apart = turned.reduce((sum, v, i) => sum + Math.abs(v - straight[i]!), 0) / turned.length;
    expect(apart).toBeLessThan(12);
  });
});

describe('an evenness sheet', () => {
  const evenness = { kind: 'evenness', setupId: 'desktop-a4', blankId: 'flag-polyester-300x450' } as const;
  const proposed = async (more: object): Promise<TestSheetProposal> =>
    testSheetProposalSchema.parse(
      (await call('POST', '/api/test-sheets/proposal', json({ ...evenness, ...more }))).json(),
    );

  test('is as large as the paper covers of the platen, and says what it leaves out', async () => {
    expect(await proposed({ setupId: 'desktop-a3', pressId: 'flat-380-380' })).toMatchObject({
      possible: true,
      widthMm: 297,
      heightMm: 380,
      remarks: [expect.stringContaining('78 % of the platen'), expect.any(String)],
    });
    // The platen is wider than deep: so lies the sheet.
    const wide = await proposed({ setupId: 'desktop-a3', pressId: air });
    expect(wide).toMatchObject({ widthMm: 420, heightMm: 297 });
    expect(await proposed({ pressId: 'mug-press' })).toMatchObject({
      possible: false,
      standing: expect.stringContaining('flat platen'),
    });
    expect(await proposed({ widthMm: 40, heightMm: 40 })).toMatchObject({ possible: false });
  });

  test('is made, mirrored once, read by what is kept; pressed short, and its ticket says why', async () => {
    const small = { ...evenness, blankId: 'aluminium-sheet-200x300', widthMm: 160, heightMm: 120 };
    const { sheet, file } = await made({ ...small, pressId: 'flat-380-380', setupId: 'desktop-a4' });
    expect(sheet.evenness).toMatchObject({ pressId: 'flat-380-380' });
    const kept = (await theShop().testSheets.evennessOrderOf(sheet.id))!;
    const piece = await sharp(await file('sheet'))
      .flop()
      .toColourspace('srgb')
      // A real ground is not as white as the file's.
      .linear(0.9, 5)
      .withMetadata({ density: 300 })
      .png()
      .toBuffer();
    const reading = await readEvennessPicture(piece, kept);
    expect(reading.surface).toBe('piece');
    expect(reading.cells.length).toBe(sheet.patches);
    // Another evenness sheet is refused by its code.
    await expect(
      readEvennessPicture(piece, { ...kept, sheetId: newSheetId(Uint8Array.of(1, 2, 3, 4, 5, 6)) }),
    ).rejects.toMatchObject({ code: 'scan.wrong-sheet' });
    const [ticket, ...more] = await pagesOf(await file('ticket'));
    expect(more).toEqual([]);
    // Three quarters of 70 s.
    expect(ticket).toContain('53 s');
    expect(ticket).toContain('on purpose');
    expect(ticket).toContain('to the back of the press');
    expect(ticket).toContain(`/press/evenness/${sheet.id}`);
    expect(ticket).not.toContain('in the record');
  });
});
