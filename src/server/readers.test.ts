import sharp from 'sharp';
import { beforeAll, expect, test } from 'vitest';
import { type Reading, readerSchema, readingPatchSchema, readingSchema } from '#contract';
import { writeCgats } from '#craft/cgats';
import { deltaE00, labFromXyz, type Triple, xyzFromLab } from '#craft/colour';
import { planColourSheet } from '#craft/testsheet';
import { form } from '../../tests/shop/fixture.js';
import { json, testServer } from '../../tests/shop/http.js';
import { scanOf, trueRelativeLab } from '../../tests/shop/printed-chart.js';

const { call, expectProblem, theShop, faults } = testServer();
const order = {
  kind: 'colour',
  setupId: 'small',
  blankId: 'aluminium-sheet-200x300',
  patches: 80,
  seed: 11,
} as const;
const reader = { name: 'The flat one', kind: 'scanner', note: 'Automatic corrections off.' };
let sheetId = '';
let picture: Buffer;

/** The true colours, told by an instrument that stands on a warm white: any colour space will do for the truth. */
const measuredLab = (deviceRgb: readonly number[]): Triple => {
  const [x, y, z] = xyzFromLab(trueRelativeLab(deviceRgb));
  return labFromXyz([0.88 * x, 0.9 * y, 0.86 * z]);
};

beforeAll(async () => {
  const shop = theShop();
  const a4 = await shop.setups.get('desktop-a4');
  const paper = { ...a4.paper, name: 'Small paper', widthMm: 148, heightMm: 210 };
  await shop.setups.save('small', { ...a4, id: 'small', name: 'Small', ppi: 150, paper });
  const sheet = await shop.testSheets.make(order, { format: 'png' });
  sheetId = sheet.id;
  const file = await shop.testSheets.openFile(sheetId, sheet.files[0]!.fileName);
  picture = await scanOf(await sharp(file.path).png().toBuffer(), 150);
});

async function read(fields: Record<string, string>): Promise<Reading> {
  const answer = await call('POST', '/api/readings', form({ name: 'scan.png', bytes: picture }, fields));
  const job = await theShop().jobs.finished(answer.json().id);
  expect([job.problem, faults]).toEqual([null, []]);
  return readingSchema.parse((await call('GET', `/api/readings/${job.resultId}`)).json());
}

/** An instrument's file of the sheet with device values and no names, each colour once. */
async function instrumentFile(): Promise<Buffer> {
  const { layout } = planColourSheet((await theShop().testSheets.orderOf(sheetId))!);
  const colours = [...new Map(layout.patches.map((one) => [one.deviceRgb.join(), one.deviceRgb])).values()];
  return Buffer.from(
    writeCgats(
      {
        device: { space: 'RGB', rows: colours.map((rgb) => rgb.map((v) => v / 255)) },
        lab: colours.map(measuredLab),
        xyz: null,
        spectra: null,
        sdLab: null,
        sampleIds: colours.map((_, i) => String(i + 1)),
        keywords: new Map(),
        remarks: [],
      },
      { originator: 'Virtual instrument (invented)' },
    ),
  );
}

const errorOf = async (reading: Reading): Promise<number> => {
  const patches = readingPatchSchema
    .array()
    .parse((await call('GET', `/api/readings/${reading.id}/patches`)).json());
  const off = patches
    .filter(({ sound }) => sound)
    .map(({ lab, deviceRgb }) => deltaE00(lab, measuredLab(deviceRgb)));
  return off.reduce((sum, v) => sum + v, 0) / off.length;
};

test('a scanner is entered, reads with grade D, is calibrated by its own reading, and then reads with grade B', async () => {
  const put = await call('PUT', '/api/readers/flat', json(reader));
  expect(readerSchema.parse(put.json())).toMatchObject({ id: 'flat', ...reader, calibration: null });
  const before = await read({ readerId: 'flat' });
  expect(before).toMatchObject({ grade: 'D', readerId: 'flat', readerName: 'The flat one' });

  const file = { name: 'measured.txt', bytes: await instrumentFile() };
  const answer = await call('POST', '/api/readers/flat/calibration', form(file, { readingId: before.id }));
  expect([answer.statusCode, answer.body]).toEqual([200, expect.any(String)]);
  const calibrated = readerSchema.parse(answer.json());
  expect(calibrated.calibration).toMatchObject({ by: 'same-ink', setupName: 'Small' });
  expect(calibrated.calibration!.samples).toBeGreaterThan(60);

  const after = await read({ readerId: 'flat' });
  expect(after).toMatchObject({ grade: 'B', expectedError: { restsOn: 'calibration' } });
  expect(after.sentences[1]).toContain('“The flat one” as it was calibrated (grade B)');
  const [d, b] = [await errorOf(before), await errorOf(after)];
  expect(b).toBeLessThan(1);
  expect(b).toBeLessThan(d / 2);

  const again = await call('POST', `/api/readings/${before.id}/colours`, json({ readerId: 'flat' }));
  const told = readingSchema.parse(again.json());
  expect(told).toMatchObject({
    id: before.id,
    grade: 'B',
    createdAt: before.createdAt,
    overlay: before.overlay,
  });
  expect(await errorOf(told)).toBeLessThan(1);
  expect(
    (await call('PUT', '/api/readers/flat', json({ ...reader, name: 'Renamed' }))).json().calibration,
  ).toEqual(calibrated.calibration);
});

test('what is no calibration is refused in words', async () => {
  await call('PUT', '/api/readers/other', json(reader));
  const reading = await read({});
  const file = { name: 'measured.txt', bytes: await instrumentFile() };
  const calibrate = (id: string, sent: ReturnType<typeof form>) =>
    call('POST', `/api/readers/${id}/calibration`, sent);
  expectProblem(await calibrate('nobody', form(file, { readingId: reading.id })), 404, 'record.missing');
  expectProblem(await calibrate('other', form(file, { readingId: 'no-such' })), 404, 'record.missing');
  expectProblem(await calibrate('other', form(file)), 422, 'request.invalid');
  const scanned = (await call('GET', `/api/readings/${reading.id}/measurements`)).rawPayload;
  expectProblem(
    await calibrate('other', form({ name: 'own.txt', bytes: scanned }, { readingId: reading.id })),
    422,
    'chart.unusable',
  );
  const flat = await read({ readerId: 'flat' });
  expectProblem(await calibrate('other', form(file, { readingId: flat.id })), 422, 'request.invalid');
  expectProblem(
    await call('POST', '/api/readings', form({ name: 'a.png', bytes: picture }, { readerId: 'nobody' })),
    404,
    'record.missing',
  );
});

test('a scanner may go; readings made with it stay', async () => {
  const reading = await read({ readerId: 'flat' });
  expect((await call('DELETE', '/api/readers/flat')).statusCode).toBe(204);
  expectProblem(await call('DELETE', '/api/readers/flat'), 404, 'record.missing');
  expect((await call('GET', `/api/readings/${reading.id}`)).json()).toEqual(reading);
});
