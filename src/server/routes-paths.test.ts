import sharp from 'sharp';
import { beforeAll, describe, expect, test } from 'vitest';
import {
  artworkColoursSchema,
  type ColourAnswer,
  colourAnswerSchema,
  type Job,
  pathLookSchema,
} from '#contract';
import { deltaE00, type Triple } from '#craft/colour';
import { form } from '../../tests/shop/fixture.js';
import { testServer } from '../../tests/shop/http.js';
import { cgatsOf, measuredChart } from '../../tests/simulator/measured-file.js';
import { dyeOnCoating } from '../../tests/simulator/virtual-printer.js';

/** A shop's own printer: invented, from absorbing spectra; nothing of it is our model. */
const printer = dyeOnCoating(3);
const server = testServer();
const { call, expectProblem, theShop } = server;
const json = (value: unknown) => ({
  payload: JSON.stringify(value),
  headers: { 'content-type': 'application/json' },
});
let pathId = '';

beforeAll(async () => {
  const file = { name: 'slate, autumn.txt', bytes: Buffer.from(cgatsOf(measuredChart(printer, 120, 4))) };
  const answer = await call('POST', '/api/paths/measured-file', form(file, { name: 'Slate, autumn' }));
  expect(answer.statusCode).toBe(202);
  const job = (await theShop().jobs.finished((answer.json() as Job).id)) as Job;
  expect(job.problem).toBeNull();
  pathId = job.resultId!;
});

describe('a path learnt from a file', () => {
  test('is there, with grade A and what was assumed', async () => {
    const path = (await call('GET', `/api/paths/${pathId}`)).json();
    expect(path).toMatchObject({ name: 'Slate, autumn', origin: 'measured', measurement: { grade: 'A' } });
    expect(path.measurement.remarks.join(' ')).toMatch(/taken for an instrument/);
  });

  test('shows its gamut, greys and doubt as the printer has them', async () => {
    const answer = await call('GET', `/api/paths/${pathId}/look`);
    const look = pathLookSchema.parse(answer.json());
    expect(look.gamut.lab.length).toBe(look.gamut.srgb.length);
    expect(Math.max(...look.gamut.triangles)).toBeLessThan(look.gamut.lab.length / 3);
    expect(look.neutrals).toHaveLength(21);
    // What the printer really makes of those device values.
    const truth = printer.print(
      look.neutrals.map((one) => one.deviceRgb.map((v) => v / 255) as unknown as Triple),
    );
    const off = look.neutrals.map((one, i) => deltaE00(one.lab, truth[i]!));
    expect(off.reduce((sum, v) => sum + v, 0) / off.length).toBeLessThan(1);
    // Greys: the way back takes the plain driver's cast out.
    const white = look.neutrals.at(-1)!.lab;
    const middle = truth[10]!;
    expect(Math.hypot(middle[1] - white[1], middle[2] - white[2])).toBeLessThan(4);
    expect(look.sentences[0]).toMatch(/^Colours should come out within \d\.\d ΔE00 on average/);
    expect(look.doubt.length).toBeGreaterThan(100);
  });

  test('answers colours: what is reached comes out on the printer, what is not gets neighbours that do', async () => {
    const wanted = ['#808080', '#b0705a', '#40607a', '#00ff00', '#2000ff'];
    const answer = await call(
      'POST',
      `/api/paths/${pathId}/colours`,
      json({ colours: [...wanted.map((hex) => ({ hex })), { lab: [50, 10, 10], white: 'absolute' }] }),
    );
    expect(answer.statusCode).toBe(200);
    const answers = (answer.json() as ColourAnswer[]).map((one) => colourAnswerSchema.parse(one));
    expect(answers.map((one) => one.reached)).toEqual([true, true, true, false, false, true]);
    const truth = printer.print(answers.map((one) => one.deviceRgb.map((v) => v / 255) as unknown as Triple));
    answers.forEach((one, i) => {
      expect(deltaE00(one.comesOutLab, truth[i]!), wanted[i]).toBeLessThan(2);
      if (one.reached) expect(one.alternatives).toEqual([]);
    });
    expect(answers[5]!.wantedLab).toEqual([50, 10, 10]);
    const green = answers[3]!;
    expect(green.missDeltaE00).toBeGreaterThan(5);
    expect(green.alternatives.length).toBeGreaterThanOrEqual(2);
    const ordered = green.alternatives.map((one) => one.deltaE00FromWanted);
    expect(ordered).toEqual(ordered.toSorted((a, b) => a - b));
    // Each neighbour, asked for by itself, comes out as it looks.
    const again = await call(
      'POST',
      `/api/paths/${pathId}/colours`,
      json({ colours: green.alternatives.map(({ lab }) => ({ lab, white: 'absolute' })) }),
    );
    for (const one of again.json() as ColourAnswer[]) expect(one.missDeltaE00).toBeLessThan(1.5);
  });

  test('says what an artwork will suffer', async () => {
    const halves = await sharp({ create: { width: 60, height: 60, channels: 3, background: '#808080' } })
      .composite([
        {
          input: { create: { width: 30, height: 60, channels: 3, background: '#00ff00' } },
          left: 0,
          top: 0,
        },
      ])
      .png()
      .toBuffer();
    const artwork = (
      await call('POST', '/api/artwork', form({ name: 'halves.png', bytes: halves }))
    ).json() as { id: string };
    const answer = await call('GET', `/api/paths/${pathId}/artwork/${artwork.id}`);
    const found = artworkColoursSchema.parse(answer.json());
    expect(found.changedShare).toBeCloseTo(0.5, 1);
    expect(found.colours[0]).toMatchObject({ wantedHex: '#00ff00', why: 'not-reached' });
    expect(found.sentences[0]).toMatch(/^50 % of the picture/);
  });

  test('gives its profile in either version, and its measurements with their grade', async () => {
    for (const version of ['2', '4']) {
      const answer = await call('GET', `/api/paths/${pathId}/profile?icc=${version}`);
      expect(answer.headers['content-type']).toBe('application/vnd.iccprofile');
      // ICC.1:2022, 7.2.4: byte 8 is the major version; 7.2.9: 'acsp' at 36.
      expect(answer.rawPayload[8]).toBe(Number(version));
      expect(answer.rawPayload.subarray(36, 40).toString('latin1')).toBe('acsp');
    }
    const text = (await call('GET', `/api/paths/${pathId}/measurements`)).body;
    expect(text).toMatch(/^CGATS\.17/);
    expect(text).toContain('DYEWRIGHT_GRADE "A"');
  });

  test('fits as far as anything is known: nothing is', async () => {
    expect((await call('GET', `/api/paths/${pathId}/standing`)).json()).toMatchObject({
      standing: 'unknown',
      reasons: [],
      lastCheck: null,
    });
    expect((await call('GET', `/api/paths/${pathId}/checks`)).json()).toEqual([]);
  });
});

describe('an imported profile', () => {
  test('is looked at and asked through its own tables; nobody knows its doubt', async () => {
    const icc = (await call('GET', `/api/paths/${pathId}/profile`)).rawPayload;
    const imported = (
      await call('POST', '/api/paths', form({ name: 'x.icc', bytes: icc }, { name: 'Brought in' }))
    ).json() as { id: string };
    const look = (await call('GET', `/api/paths/${imported.id}/look`)).json();
    expect(look).toMatchObject({ grade: null, expectedError: null, doubt: [] });
    expect(look.sentences[0]).toMatch(/nobody measured it here/);
    const ask = (id: string) =>
      call('POST', `/api/paths/${id}/colours`, json({ colours: [{ hex: '#808080' }, { hex: '#b0705a' }] }));
    const [own, theirs] = [(await ask(pathId)).json(), (await ask(imported.id)).json()] as ColourAnswer[][];
    own!.forEach((one, i) => {
      expect(theirs![i]!.expectedDeltaE00).toBeNull();
      expect(deltaE00(one.comesOutLab, theirs![i]!.comesOutLab)).toBeLessThan(0.8);
    });
  });
});

test('what cannot be is said in words', async () => {
  expectProblem(await call('GET', '/api/paths/nothing/look'), 404, 'record.missing');
  expectProblem(
    await call('POST', `/api/paths/${pathId}/colours`, json({ colours: [] })),
    422,
    'request.invalid',
  );
  expectProblem(
    await call('POST', '/api/paths/measured', json({ readingIds: ['none'] })),
    404,
    'record.missing',
  );
  expectProblem(
    await call('POST', `/api/paths/${pathId}/checks`, json({ readingId: 'none' })),
    404,
    'record.missing',
  );
  expectProblem(
    await call(
      'POST',
      '/api/paths/by-eye',
      json({ sheetId: 'none', neutrals: [], fromBlack: 'A', fromWhite: 'A', likeCard: 'A' }),
    ),
    404,
    'record.missing',
  );
});
