/**
 * The whole loop of the press bench on a press that is not our model (`press-transfer`: two stages, diffusion, loss): a
 * ladder ordered from the shop, its sheet printed, cut, each coupon pressed at its step by a press that repeats itself as
 * presses do, laid anyhow on a scanner, read back. What the program says is held against the press's own window.
 */
import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { Ladder, TestSheet } from '#contract';
import { windowOf } from '#craft/presswindow';
import { isProblem } from '#craft/problem';
import type { Shop } from '#shop';
import { readCouponsPicture } from '#shop/vision';
import { newFolder, openTestShop } from '../shop/fixture.js';
import { type Chance, chanceOf, ink, type Picture, toFile, writtenSheet } from '../simulator/index.js';
import { hueOfBlack, type Pressed, scanNoise, transfer } from '../simulator/press-transfer.js';
import { cutCoupon, pressedAt, scanOfCoupons } from '../simulator/pressed-coupons.js';

vi.setConfig({ testTimeout: 300_000, hookTimeout: 300_000 });

/** More seeds: PRESS_LOOP_SEEDS=12 npm test -- tests/program/press-loop */
const seeds = Array.from({ length: Number(process.env.PRESS_LOOP_SEEDS ?? 2) }, (_, i) => i + 1);
const ppi = 300;
const times = [25, 90] as const;

const { folder, remove } = newFolder();
const faults: unknown[] = [];
let shop: Shop;
let sheet: TestSheet;
let written: Buffer;
/** The printed coupons by number, as they lie on the paper. */
const printed = new Map<number, Picture>();

const order = {
  kind: 'ladder',
  setupId: 'desktop-a4',
  blankId: 'aluminium-sheet-200x300',
  coupons: 9,
  factors: [{ kind: 'time', low: times[0], high: times[1] }],
  start: { platenC: 200, dwellSeconds: 50 },
  limits: { platenC: [190, 208], dwellSeconds: [...times] },
} as const;

/** The press's own window at 200 °C, without noise, by the same rules. */
const truth = (() => {
  const at = (of: (pressed: Pressed) => number) => (log: number) =>
    of(transfer({ platenC: 200, dwellSeconds: Math.exp(log) }));
  return windowOf(
    {
      densities: (['black', 'cyan', 'magenta', 'yellow'] as const).map((s) => at((p) => p.density[s])),
      blackHue: at(hueOfBlack),
      edgeUm: at((p) => p.edgeUm),
    },
    times,
  );
})();
const trueMiddle = Math.sqrt(truth.fromSeconds * truth.toSeconds);

beforeAll(async () => {
  ({ shop } = await openTestShop({ folder, onFault: (error) => faults.push(error) }));
  sheet = await shop.testSheets.make(order, { format: 'png' });
  const file = sheet.files.find(({ kind }) => kind === 'sheet')!;
  written = readFileSync((await shop.testSheets.openFile(sheet.id, file.fileName)).path);
  const paper = await writtenSheet(written, ppi);
  for (const { number, reading } of (await readCouponsPicture(written)).coupons)
    printed.set(number!, cutCoupon(paper, reading!.outline));
});
afterAll(async () => {
  await shop.close();
  remove();
});

/** Pressed as the plan says, by a press that is now a little off and now on. */
function pressedCoupons(chance: Chance, numbers?: readonly number[]): Picture[] {
  return sheet
    .ladder!.coupons.filter(({ number }) => numbers === undefined || numbers.includes(number))
    .map(({ number, step }) =>
      pressedAt(printed.get(number)!, {
        platenC: step.platenC + scanNoise.pressK * chance.normal(),
        dwellSeconds: step.dwellSeconds + scanNoise.pressSeconds * chance.normal(),
      }),
    );
}

const scanFile = (pieces: readonly Picture[], chance: Chance, seed: number): Promise<Buffer> =>
  toFile(scanOfCoupons(pieces, chance, seed), { format: 'png', ppi });

const notedNone = (ladder: Ladder) => ladder.coupons.every(({ values, byEye }) => !values && !byEye);
const codeOf = async (work: Promise<unknown>): Promise<string> => {
  const error = await work.catch((thrown: unknown) => thrown);
  return isProblem(error) ? error.code : `no problem: ${String(error)}`;
};

test('the plan is nine coupons in the order to press, and nothing is known of them', async () => {
  expect(printed.size).toBe(9);
  const ladder = await shop.ladders.get(sheet.id);
  expect(ladder.coupons.map(({ number }) => number)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
  expect(notedNone(ladder)).toBe(true);
  expect(ladder.window).toBeNull();
  expect(ladder.missing).toMatch(/Press the 9 coupons/);
  expect((await shop.ladders.list({ blankId: order.blankId })).map(({ sheetId }) => sheetId)).toEqual([
    sheet.id,
  ]);
  expect(await codeOf(shop.ladders.field(sheet.id))).toBe('ladder.unusable');
  expect(await shop.ladders.fitOf(sheet.id)).toBeNull();
});

describe.each(seeds)('pressed and scanned, seed %i', (seed) => {
  test('the middle of the window is within 5 % of the press’s own', async () => {
    const chance = chanceOf(1000 + seed);
    const file = await scanFile(pressedCoupons(chance), chance, seed);
    const ladder = await shop.ladders.read(file, { fileName: `scan-${seed}.png` });
    expect(ladder.pictures.at(-1)!.coupons).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    const window = ladder.window!;
    const error = window.recipe.middleSeconds.value / trueMiddle - 1;
    console.log(
      `seed ${seed}: ${window.words} Truth ${truth.fromSeconds.toFixed(1)}–${truth.toSeconds.toFixed(1)} s, middle ${trueMiddle.toFixed(1)}; told ${window.fromSeconds.value.toFixed(1)}–${window.toSeconds.value.toFixed(1)}, error ${(100 * error).toFixed(1)} %; ${window.opens}/${window.closes}\n${window.remarks.join('\n')}\n${window.next[0]?.words}`,
    );
    expect(Math.abs(error)).toBeLessThan(0.05);
    await shop.ladders.remove(sheet.id);
    expect(notedNone(await shop.ladders.get(sheet.id))).toBe(true);
  });
});

describe('a ladder read in parts', () => {
  const chance = chanceOf(77);
  let pieces: Picture[];
  let first: Buffer;

  beforeAll(async () => {
    pieces = pressedCoupons(chance);
    first = await scanFile(pieces.slice(0, 5), chance, 1);
  });

  test('four are enough for a window, and those wanting are named', async () => {
    const ladder = await shop.ladders.read(first, { fileName: 'first.png', sheetId: sheet.id });
    expect(ladder.window!.remarks[0]).toMatch(/^Coupons 6, 7, 8 and 9 were neither read nor judged/);
  });

  test('a second scan adds the others; what was there stays', async () => {
    const ladder = await shop.ladders.read(await scanFile(pieces.slice(5), chance, 2), { fileName: 'b.png' });
    expect(ladder.pictures).toHaveLength(2);
    expect(ladder.coupons.every(({ values }) => values !== null)).toBe(true);
    expect(ladder.window!.remarks.join(' ')).not.toMatch(/neither read/);
  });

  test('the window can be drawn, its courses too, and the fit is given to others', async () => {
    const [field, courses, fit] = await Promise.all([
      shop.ladders.field(sheet.id),
      shop.ladders.courses(sheet.id),
      shop.ladders.fitOf(sheet.id),
    ]);
    expect(field.within).toHaveLength(field.platenC.length * field.dwellSeconds.length);
    expect(Math.max(...field.within)).toBeGreaterThan(0.5);
    expect(Math.max(...field.platenC)).toBeLessThanOrEqual(230);
    expect(courses.map(({ id }) => id)).toContain('density.black');
    expect(courses[0]!.coupons.map(({ number }) => number).sort()).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(fit!.coupons).toHaveLength(9);
  });

  test('a black is judged by this ladder, and without one by common practice, each saying so', async () => {
    const step = { platenC: 200, dwellSeconds: 22 };
    const black = { lab: transfer(step).blackLab };
    const own = await shop.ladders.verdict({ black, step, blankId: order.blankId });
    expect(own).toMatchObject({ verdict: 'under', restsOn: 'own ladder', ladderId: sheet.id });
    expect(own.seconds.value).toBeGreaterThan(0);
    const other = await shop.ladders.verdict({ black, step, blankId: 'mouse-mat-230x190' });
    expect(other).toMatchObject({ verdict: 'under', restsOn: 'common practice', ladderId: null });
    expect(other.remarks.join(' ')).toMatch(/no ladder of this blank/);
    const eye = await shop.ladders.verdict({
      black: { byEye: 'brown' },
      step: { ...step, dwellSeconds: 88 },
      ladderId: sheet.id,
    });
    expect(eye).toMatchObject({ verdict: 'over', restsOn: 'own ladder' });
    expect(
      await codeOf(shop.ladders.verdict({ black: { byEye: 'green' }, step: { ...step, platenC: 240 } })),
    ).toBe('press.unsafe');
  });

  test('coupons scanned again that say otherwise: the newer counts and it is said; taken out, the older stands', async () => {
    const before = await shop.ladders.get(sheet.id);
    const swapped = pressedAt(printed.get(1)!, { platenC: 200, dwellSeconds: 15 });
    const after = await shop.ladders.read(await scanFile([swapped], chance, 3), { fileName: 'again.png' });
    const densityOf = (ladder: Ladder) => ladder.coupons[0]!.values!.density!.magenta!.value;
    expect(densityOf(after)).toBeLessThan(densityOf(before) - 0.05);
    expect(after.coupons[0]!.remarks.join(' ')).toMatch(/“again.png” says another .* than “first.png”/);
    const undone = await shop.ladders.removePicture(sheet.id, after.pictures.at(-1)!.id);
    expect(densityOf(undone)).toBe(densityOf(before));
    expect(undone.window!.recipe).toEqual(before.window!.recipe);
    expect(await codeOf(shop.ladders.removePicture(sheet.id, 'gone'))).toBe('record.missing');
  });

  test('the same number twice with different values is used neither way', async () => {
    const other = pressedAt(printed.get(3)!, { platenC: 200, dwellSeconds: 15 });
    const before = await shop.ladders.get(sheet.id);
    const pair = [pieces[2]!, other, pieces[3]!];
    const ladder = await shop.ladders.read(await scanFile(pair, chance, 4), { fileName: 'twice.png' });
    const picture = ladder.pictures.at(-1)!;
    expect(picture.coupons).toEqual([4]);
    expect(picture.remarks.join(' ')).toMatch(/Coupon 3 is in the picture twice with different values/);
    expect(ladder.coupons[2]!.values).toEqual(before.coupons[2]!.values);
    await shop.ladders.removePicture(sheet.id, picture.id);
  });

  test('unpressed coupons are kept as paper and tell nothing of the press', async () => {
    const before = await shop.ladders.get(sheet.id);
    const paper = [1, 2].map((number) => ink(printed.get(number)!));
    const ladder = await shop.ladders.read(await scanFile(paper, chance, 5), { fileName: 'paper.png' });
    const picture = ladder.pictures.at(-1)!;
    expect(picture.surface).toBe('paper');
    expect(picture.remarks[0]).toMatch(/printed paper, not pressed/);
    expect(ladder.coupons[0]!.values).toEqual(before.coupons[0]!.values);
    await shop.ladders.removePicture(sheet.id, picture.id);
  });

  test('exchanged coupons are named, not silently fitted', async () => {
    const shortest = sheet.ladder!.coupons.reduce((a, b) =>
      b.step.dwellSeconds < a.step.dwellSeconds ? b : a,
    );
    const longest = sheet.ladder!.coupons.reduce((a, b) =>
      b.step.dwellSeconds > a.step.dwellSeconds ? b : a,
    );
    const ladder = await shop.ladders.note(sheet.id, {
      coupons: [
        { number: shortest.number, pressed: longest.step },
        { number: longest.number, pressed: shortest.step },
      ],
    });
    expect(ladder.window!.remarks.join(' ')).toMatch(/look exchanged/);
    await shop.ladders.note(sheet.id, {
      coupons: [shortest, longest].map(({ number }) => ({ number, pressed: null })),
    });
  });

  test('a temperature above the bound, an unknown coupon, a coupon twice: refused, and nothing changes', async () => {
    const before = await shop.ladders.get(sheet.id);
    const hot = { number: 1, pressed: { platenC: 245, dwellSeconds: 40 } };
    expect(await codeOf(shop.ladders.note(sheet.id, { coupons: [hot] }))).toBe('press.unsafe');
    expect(await codeOf(shop.ladders.note(sheet.id, { coupons: [{ number: 12, leftOut: true }] }))).toBe(
      'request.invalid',
    );
    const twice = [
      { number: 1, leftOut: true },
      { number: 1, leftOut: false },
    ];
    expect(await codeOf(shop.ladders.note(sheet.id, { coupons: twice }))).toBe('request.invalid');
    expect(await shop.ladders.get(sheet.id)).toEqual(before);
  });

  test('a picture of nothing, a broken file, a ladder or scanner that is not there', async () => {
    const bytes = Buffer.from('not a picture');
    expect(await codeOf(shop.ladders.read(bytes, { fileName: 'x.png' }))).toMatch(/^image\./);
    expect(await codeOf(shop.ladders.read(first, { fileName: 'x.png', readerId: 'gone' }))).toBe(
      'record.missing',
    );
    expect(await codeOf(shop.ladders.get('nowhere'))).toBe('record.missing');
    const half = first.subarray(0, first.length / 3);
    expect(await codeOf(shop.ladders.read(half, { fileName: 'half.png' }))).toMatch(/^(image|scan)\./);
  });
});

describe('coupons of another ladder', () => {
  test('are refused alone, and left out beside the right ones', async () => {
    const other = await shop.testSheets.make({ ...order, coupons: 5 }, { format: 'png' });
    const chance = chanceOf(5);
    const pieces = pressedCoupons(chance, [1, 2]);
    const file = await scanFile(pieces, chance, 1);
    expect(await codeOf(shop.ladders.read(file, { fileName: 'a.png', sheetId: other.id }))).toBe(
      'scan.wrong-sheet',
    );
    const drawn = other.files.find(({ kind }) => kind === 'sheet')!;
    const bytes = readFileSync((await shop.testSheets.openFile(other.id, drawn.fileName)).path);
    const strange = (await readCouponsPicture(bytes)).coupons.find(({ number }) => number === 1)!;
    const theirs = pressedAt(cutCoupon(await writtenSheet(bytes, ppi), strange.reading!.outline), {
      platenC: 200,
      dwellSeconds: 50,
    });
    const mixed = await scanFile([...pieces, theirs], chance, 2);
    expect(await codeOf(shop.ladders.read(mixed, { fileName: 'mixed.png' }))).toBe('request.invalid');
    const ladder = await shop.ladders.read(mixed, { fileName: 'mixed.png', sheetId: other.id });
    expect(ladder.pictures[0]!.coupons).toEqual([1]);
    expect(ladder.pictures[0]!.remarks.join(' ')).toMatch(/another ladder/);
    expect(ladder.window).toBeNull();
    expect(ladder.missing).toMatch(/^1 of 5 coupons is known; a window needs at least 4\./);
  });

  test('a scan of another test sheet says which it is', async () => {
    const chart = await shop.testSheets.make(
      { kind: 'colour', setupId: 'desktop-a4', blankId: order.blankId, patches: 60, seed: 4 },
      { format: 'png' },
    );
    const file = chart.files.find(({ kind }) => kind === 'sheet')!;
    const bytes = readFileSync((await shop.testSheets.openFile(chart.id, file.fileName)).path);
    const error = await shop.ladders
      .read(bytes, { fileName: 'chart.png' })
      .catch((thrown: unknown) => thrown);
    expect(isProblem(error) && [error.code, error.message]).toEqual([
      'scan.wrong-sheet',
      expect.stringMatching(/a colour test sheet for .*, not a ladder’s coupons/),
    ]);
    expect(await codeOf(shop.ladders.get(chart.id))).toBe('scan.wrong-sheet');
  });
});

describe('by eye alone', () => {
  /** Eyes that see the simulated press: tinted from 2.5 units, soft from a quarter more than where the dye has arrived. */
  const seen = (seconds: number) => {
    const pressed = transfer({ platenC: 200, dwellSeconds: seconds });
    const hue = hueOfBlack(pressed);
    const arrived = transfer({ platenC: 200, dwellSeconds: truth.fromSeconds }).edgeUm;
    return {
      black: hue < -2.5 ? 'green' : hue > 2.5 ? 'brown' : 'neutral',
      edges: pressed.edgeUm > 1.25 * arrived ? 'soft' : 'crisp',
    } as const;
  };

  test('there is a window round where black is neutral and edges crisp, surely no nearer than eyes can tell', async () => {
    await shop.ladders.remove(sheet.id);
    const ladder = await shop.ladders.note(sheet.id, {
      coupons: sheet.ladder!.coupons.map(({ number, step }) => ({
        number,
        byEye: seen(step.dwellSeconds),
      })),
    });
    const { recipe, remarks } = ladder.window!;
    console.log(ladder.standing, remarks.join('\n'));
    const looks = seen(recipe.dwellSeconds);
    expect(looks).toEqual({ black: 'neutral', edges: 'crisp' });
    expect(remarks.join(' ')).toMatch(/Density was not measured/);
  });

  test('brown on less and green on more is refused in words, and the ladder keeps what was said', async () => {
    const [short, long] = [...sheet.ladder!.coupons].sort(
      (a, b) => a.step.dwellSeconds - b.step.dwellSeconds,
    );
    const last = [...sheet.ladder!.coupons].sort((a, b) => b.step.dwellSeconds - a.step.dwellSeconds)[0]!;
    expect(long).toBeDefined();
    const ladder = await shop.ladders.note(sheet.id, {
      coupons: [
        { number: short!.number, byEye: { black: 'brown' } },
        { number: last.number, byEye: { black: 'green' } },
      ],
    });
    expect(ladder.window).toBeNull();
    expect(ladder.missing).toMatch(/looks brown though it was pressed less/);
    expect(ladder.coupons.find(({ number }) => number === last.number)!.byEye).toEqual({ black: 'green' });
  });
});

test('nothing went wrong that nobody heard of', () => expect(faults).toEqual([]));
