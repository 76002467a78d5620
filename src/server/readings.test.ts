import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import { type Reading, type ReadingPatch, readingPatchSchema, readingSchema } from '#contract';
import { readMeasurements, statedGrade, writeCgats } from '#craft/cgats';
import { deltaE00, labFromXyz, type Triple, xyzFromLab } from '#craft/colour';
import { planColourSheet } from '#craft/testsheet';
import { patchName } from '#shop/readings';
import { form, keptFiles, scratchOf } from '../../tests/shop/fixture.js';
import { json, testServer } from '../../tests/shop/http.js';
import { scanOf, trueRelativeLab } from '../../tests/shop/printed-chart.js';

const { call, expectProblem, theShop, folder, faults } = testServer();
const order = {
  kind: 'colour',
  setupId: 'small',
  blankId: 'aluminium-sheet-200x300',
  patches: 60,
  seed: 7,
} as const;
let sheetId = '';
let written: Buffer;
let picture: Buffer;

beforeAll(async () => {
  const shop = theShop();
  const a4 = await shop.setups.get('desktop-a4');
  const paper = { ...a4.paper, name: 'Small paper', widthMm: 148, heightMm: 210 };
  await shop.setups.save('small', { ...a4, id: 'small', name: 'Small', ppi: 150, paper });
  const sheet = await shop.testSheets.make(order, { format: 'png' });
  sheetId = sheet.id;
  const file = await shop.testSheets.openFile(sheetId, sheet.files[0]!.fileName);
  written = await sharp(file.path).png().toBuffer();
  picture = await scanOf(written, 150);
});

async function posted(bytes: Uint8Array, fields: Record<string, string> = {}) {
  const answer = await call('POST', '/api/readings', form({ name: 'scan.png', bytes }, fields));
  expect([answer.statusCode, answer.body]).toEqual([202, expect.any(String)]);
  return theShop().jobs.finished(answer.json().id);
}
async function read(bytes: Uint8Array, fields: Record<string, string> = {}): Promise<Reading> {
  const job = await posted(bytes, fields);
  expect([job.problem, faults]).toEqual([null, []]);
  return readingSchema.parse((await call('GET', `/api/readings/${job.resultId}`)).json());
}
const patchesOf = async (reading: Reading): Promise<ReadingPatch[]> =>
  readingPatchSchema.array().parse((await call('GET', `/api/readings/${reading.id}/patches`)).json());

const beside = (lab: Triple, white: Triple): Triple => {
  const [xyz, ground, d50] = [xyzFromLab(lab), xyzFromLab(white), xyzFromLab([100, 0, 0])];
  return labFromXyz([0, 1, 2].map((k) => (xyz[k]! / ground[k]!) * d50[k]!) as unknown as Triple);
};

describe('a scan of the pressed piece', () => {
  let reading: Reading;
  beforeAll(async () => {
    reading = await read(picture);
  });

  test('says which sheet it is, what was read and what that is worth', () => {
    expect(reading).toMatchObject({
      sheetId,
      sheetKind: 'colour',
      from: 'scan',
      subject: 'piece',
      fileName: 'scan.png',
      readerId: null,
      grade: 'D',
      patchCount: 60,
    });
    expect(reading.soundCount).toBeGreaterThan(57);
    expect(reading.sentences[0]).toBe(`Read ${reading.soundCount} of 60 patches from the pressed piece.`);
    expect(reading.sentences[1]).toContain('grade D');
    expect(reading.expectedError.meanDeltaE00).toBeGreaterThan(1);
    expect(reading.routeStrip.length).toBeGreaterThan(8);
    expect(scratchOf(folder)).toEqual([]);
  });

  test('colours are those of solid fields through the simulator’s ink and press', async () => {
    const patches = await patchesOf(reading);
    const layout = planColourSheet((await theShop().testSheets.orderOf(sheetId))!).layout;
    expect(patches).toHaveLength(layout.patches.length);
    const off = patches
      .filter(({ sound }) => sound)
      .map(({ lab, deviceRgb }) => deltaE00(beside(lab, reading.groundLab), trueRelativeLab(deviceRgb)));
    expect(off.reduce((sum, v) => sum + v, 0) / off.length).toBeLessThan(1.2);
    for (const patch of patches) {
      expect(patch.deviceRgb).toEqual([...layout.patches[patch.index]!.deviceRgb]);
      expect(Math.max(...patch.sdLab)).toBeLessThan(6);
      expect(Math.min(...patch.sdLab)).toBeGreaterThan(0);
    }
    const white = patches.find(({ deviceRgb }) => deviceRgb.every((v) => v === 255))!;
    expect(white.seenHex).toMatch(/^#f[a-f]f[a-f]f[a-f]$/);
  });

  test('its measurements leave as CGATS that says its grade, and its table feeds a model', async () => {
    const answer = await call('GET', `/api/readings/${reading.id}/measurements`);
    expect(answer.headers['content-type']).toMatch(/^text\/plain/);
    const table = readMeasurements(answer.body);
    expect(statedGrade(table)?.grade).toBe('D');
    const own = await theShop().readings.tableOf(reading.id);
    expect(table.device.rows).toHaveLength(own.device.rows.length);
    expect(own.device.rows.length).toBe((await patchesOf(reading)).filter(({ sound }) => sound).length);
    table.lab!.forEach((lab, i) => {
      expect(deltaE00(lab, own.lab![i]!)).toBeLessThan(0.01);
    });
  });

  test('the overlay is a picture of bounded size', async () => {
    const answer = await call('GET', `/api/readings/${reading.id}/overlay?max=400`);
    expect([answer.statusCode, answer.headers['content-type']]).toEqual([200, 'image/jpeg']);
    const { width, height } = await sharp(answer.rawPayload).metadata();
    expect(Math.max(width, height)).toBe(400);
  });

  test('stands in the list of its sheet, and goes with its content', async () => {
    const other = await read(picture, { sheetId, from: 'photo', subject: 'piece' });
    expect(other).toMatchObject({ from: 'photo', grade: 'D' });
    expect(other.expectedError.meanDeltaE00).toBeGreaterThan(reading.expectedError.meanDeltaE00);
    const ids = (await call('GET', `/api/readings?sheetId=${sheetId}`)).json().map((one: Reading) => one.id);
    expect(ids).toEqual([other.id, reading.id]);
    expect((await call('GET', '/api/readings?sheetId=nothing')).json()).toEqual([]);
    expect((await call('DELETE', `/api/readings/${other.id}`)).statusCode).toBe(204);
    expectProblem(await call('GET', `/api/readings/${other.id}`), 404, 'record.missing');
    expect(keptFiles(folder)).not.toContain(other.patchesHash);
    expect((await call('GET', `/api/readings/${reading.id}/patches`)).statusCode).toBe(200);
  });

  test('told anew without a reader, it says the same', async () => {
    const again = await call('POST', `/api/readings/${reading.id}/colours`, json({ readerId: null }));
    expect(readingSchema.parse(again.json())).toEqual(reading);
  });
});

test('paper is told from piece, and refused where the person says the other', async () => {
  const paper = await scanOf(written, 150, { surface: 'paper', seed: 2, turnDegrees: 91 });
  const reading = await read(paper, { subject: 'paper' });
  expect(reading.subject).toBe('paper');
  expect(reading.sentences[1]).toContain('not pressed yet');
  const job = await posted(paper, { subject: 'piece' });
  expect(job).toMatchObject({ state: 'failed', problem: { code: 'scan.wrong-sheet' } });
});

test('a sheet that is not in the record is read by its own code, and that is said', async () => {
  const shop = theShop();
  const sheet = await shop.testSheets.make({ ...order, seed: 8 }, { format: 'png' });
  const file = await shop.testSheets.openFile(sheet.id, sheet.files[0]!.fileName);
  const bytes = await scanOf(await sharp(file.path).png().toBuffer(), 150, { seed: 3 });
  await shop.testSheets.remove(sheet.id);
  const reading = await read(bytes);
  expect(reading).toMatchObject({ sheetId: sheet.id, sheetKind: 'colour' });
  expect(reading.sentences.join(' ')).toContain('not in the shop’s record');
});

describe('wrong calls', () => {
  test.each([
    [{ subject: 'tea' }, 'subject'],
    [{ from: 'fax' }, 'from'],
    [{ sheetId: 'x'.repeat(50) }, 'sheetId'],
    [{ sheetId: 'regatta' }, 'sheetId'],
    [{ card: '{"corners":[[0,0],[9,0],[9,9],[0,9]]}' }, 'cardValues'],
  ])('%j is refused before any job', async (fields, where) => {
    const answer = await call('POST', '/api/readings', form({ name: 'a.png', bytes: picture }, fields));
    expect(expectProblem(answer, 422, 'request.invalid').where).toBe(where);
    expect(scratchOf(folder)).toEqual([]);
  });

  test('no file, no picture, no sheet in it, another sheet, an unknown reader', async () => {
    expectProblem(await call('POST', '/api/readings', form(null, {})), 422, 'request.invalid');
    const problemOf = async (bytes: Uint8Array, fields = {}) => (await posted(bytes, fields)).problem?.code;
    expect(await problemOf(Buffer.from('a letter to the rowing club'))).toBe('image.wrong-type');
    const empty = await sharp({ create: { width: 900, height: 900, channels: 3, background: '#ddd' } })
      .png()
      .toBuffer();
    expect(await problemOf(empty)).toBe('scan.no-marks');
    expect(await problemOf(picture, { sheetId: '0000000000' })).toBe('scan.wrong-sheet');
    expect(scratchOf(folder)).toEqual([]);
  });

  test('what is not there', async () => {
    for (const address of ['', '/patches', '/overlay', '/measurements'])
      expectProblem(await call('GET', `/api/readings/no-such${address}`), 404, 'record.missing');
  });
});

describe('an instrument’s file', () => {
  const send = (text: string, fields: Record<string, string>) =>
    call(
      'POST',
      '/api/readings/instrument',
      form({ name: 'measured.txt', bytes: Buffer.from(text) }, fields),
    );
  const layout = async () => planColourSheet((await theShop().testSheets.orderOf(sheetId))!).layout;

  async function table(rows: (text: { name: string; rgb: readonly number[]; lab: Triple }[]) => void) {
    const all = (await layout()).patches.map(({ column, row, deviceRgb }) => ({
      name: patchName(column, row),
      rgb: deviceRgb.map((v) => v / 255),
      lab: trueRelativeLab(deviceRgb),
    }));
    rows(all);
    return writeCgats(
      {
        device: { space: 'RGB', rows: all.map(({ rgb }) => rgb) },
        lab: all.map(({ lab }) => lab),
        xyz: null,
        spectra: null,
        sdLab: null,
        sampleIds: all.map(({ name }) => name),
        keywords: new Map(),
        remarks: [],
      },
      { originator: 'Virtual instrument (invented)' },
    );
  }

  test('is matched by device values, whatever its order; strange rows are named; its grade is A', async () => {
    const text = await table((all) => {
      all.reverse();
      all.push({ name: 'EXTRA', rgb: [0.123, 0.77, 0.31], lab: [50, 0, 0] });
    });
    const answer = await send(text, { sheetId });
    expect([answer.statusCode, answer.body]).toEqual([201, expect.any(String)]);
    const reading = readingSchema.parse(answer.json());
    expect(reading).toMatchObject({
      from: 'instrument',
      grade: 'A',
      patchCount: 60,
      soundCount: 60,
      overlay: null,
    });
    expect(reading.sentences.join(' ')).toContain('EXTRA');
    for (const { lab, deviceRgb } of await patchesOf(reading))
      expect(deltaE00(lab, trueRelativeLab(deviceRgb))).toBeLessThan(0.01);
    expectProblem(await call('GET', `/api/readings/${reading.id}/overlay`), 404, 'file.missing');
    const anew = await call('POST', `/api/readings/${reading.id}/colours`, json({ readerId: null }));
    expectProblem(anew, 422, 'chart.unusable');
  });

  test('without device values it is matched by the patches’ names', async () => {
    const text = (await table((all) => all.reverse()))
      .split('\n')
      .map((line) => line.replace(/RGB_R\tRGB_G\tRGB_B\t/, 'X1\tX2\tX3\t'))
      .join('\n');
    const reading = readingSchema.parse((await send(text, { sheetId })).json());
    expect(reading.soundCount).toBe(60);
    for (const { lab, deviceRgb } of await patchesOf(reading))
      expect(deltaE00(lab, trueRelativeLab(deviceRgb))).toBeLessThan(0.01);
  });

  test('a file of scanned colours keeps the grade it says it has', async () => {
    const scanned = await read(picture);
    const text = (await call('GET', `/api/readings/${scanned.id}/measurements`)).body;
    const reading = readingSchema.parse((await send(text, { sheetId })).json());
    expect(reading.grade).toBe('D');
    expect(reading.expectedError.meanDeltaE00).toBeCloseTo(scanned.expectedError.meanDeltaE00, 1);
  });

  test('what fits no patch, another sheet’s file, a wrong sheet and no measurements are refused', async () => {
    const strange = await table((all) => {
      for (const row of all) row.rgb = [0.123, 0.77, 0.31];
    });
    expectProblem(await send(strange, { sheetId }), 422, 'measurements.broken');
    const whole = await table(() => undefined);
    expectProblem(await send(whole, { sheetId: '0000000000' }), 404, 'record.missing');
    expectProblem(await send(whole, {}), 422, 'request.invalid');
    expectProblem(await send('nothing at all', { sheetId }), 422, 'measurements.broken');
    const elsewhere = whole.replace(
      'NUMBER_OF_FIELDS',
      'DYEWRIGHT_TEST_SHEET "0000000000"\nNUMBER_OF_FIELDS',
    );
    expectProblem(await send(elsewhere, { sheetId }), 422, 'scan.wrong-sheet');
  });
});
