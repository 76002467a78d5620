import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import {
  type ColourPath,
  colourPathSchema,
  pathCheckSchema,
  pathStandingSchema,
  type Reading,
  type TestSheet,
} from '#contract';
import { deltaE00, labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import type { Shop } from '#shop';
import { newFolder, openTestShop } from '../../../tests/shop/fixture.js';
import { cgatsOf } from '../../../tests/simulator/measured-file.js';
import { dyeOnCoating, measured, type VirtualPrinter } from '../../../tests/simulator/virtual-printer.js';
import { tableOf } from '../../../tests/simulator/virtual-printer-comparison.js';

/** The studio's printer, and the same with a batch of ink that has lost strength; both invented, not our model. */
const printer = dyeOnCoating(2);
const tired: VirtualPrinter = {
  name: 'tired ink',
  print: (rgb) => printer.print(rgb.map((row) => row.map((v) => v + 0.22 * (1 - v)) as Triple3)),
};

const { folder, remove } = newFolder();
let shop: Shop;
/** Moves on with every question, as clocks do. */
let minutes = 0;
const about = { setupId: 'desktop-a4', blankId: 'aluminium-sheet-200x300' };

beforeAll(async () => {
  const clock = () => new Date(Date.UTC(2026, 2, 1) + 60_000 * ++minutes);
  ({ shop } = await openTestShop({ folder, clock }));
  // The drawing is not what is looked at here.
  const setup = await shop.setups.get(about.setupId);
  await shop.setups.save(setup.id, { ...setup, ppi: 72 });
});
afterAll(async () => {
  await shop.close();
  remove();
});

/** Printed, pressed and measured: the patches that the sheet's record asks for, an instrument's noise on them. */
async function printAndMeasure(sheetId: string, by: VirtualPrinter, seed: number): Promise<Reading> {
  const order = await shop.testSheets.orderOf(sheetId);
  const rgb = order!.patches.map((patch) => patch.rgb);
  // The bare ground is part of what an instrument is pointed at.
  const all: Triple[] = [...rgb, [1, 1, 1]];
  const table = tableOf(all, measured(by.print(all), 0.3, seed));
  return shop.readings.importFile(Buffer.from(cgatsOf(table)), { sheetId, fileName: `${seed}.txt` });
}

async function makeSheet(order: object): Promise<string> {
  return (await shop.testSheets.make({ ...about, ...order }, { format: 'png' })).id;
}

let first: Reading;
let path: ColourPath;

describe('from readings to a path', () => {
  test('one reading: the path belongs to what the sheet was made from, and the setup uses it at once', async () => {
    first = await printAndMeasure(await makeSheet({ kind: 'colour', patches: 60, seed: 5 }), printer, 1);
    const job = await shop.colourRound.startLearn({ readingIds: [first.id], setupId: about.setupId });
    expect(job.kind).toBe('learn-path');
    const done = await shop.jobs.finished(job.id);
    expect(done.problem).toBeNull();
    path = colourPathSchema.parse(await shop.paths.get(done.resultId!));
    expect(path.measurement).toMatchObject({ grade: 'A', readingIds: [first.id] });
    expect(path.belongsTo).toMatchObject({ setup: { id: about.setupId }, blank: { id: about.blankId } });
    expect((await shop.setups.get(about.setupId)).colourPathId).toBe(path.id);
    expect(path.name).toContain(' on ');
  }, 60_000);

  test('with a follow-up: more patches, less doubt', async () => {
    const sheetId = await makeSheet({ kind: 'follow-up', pathId: path.id, patches: 30 });
    const second = await printAndMeasure(sheetId, printer, 2);
    const better = await shop.colourRound.learn({ readingIds: [first.id, second.id], name: 'With more' });
    expect(better.measurement!.patches).toBeGreaterThan(path.measurement!.patches + 25);
    expect(better.measurement!.expectedError.meanDeltaE00).toBeLessThan(
      path.measurement!.expectedError.meanDeltaE00,
    );
    expect(better.measurement!.readingIds).toEqual([first.id, second.id]);
  }, 60_000);

  test('unpressed paper, grey sheets and sheets of different blanks are refused in words', async () => {
    const onPaper = await shop.readings.importFile(
      Buffer.from(
        cgatsOf(
          tableOf(
            (await shop.testSheets.orderOf(first.sheetId))!.patches.map((patch) => patch.rgb),
            printer.print((await shop.testSheets.orderOf(first.sheetId))!.patches.map((patch) => patch.rgb)),
          ),
        ),
      ),
      { sheetId: first.sheetId, fileName: 'paper.txt', subject: 'paper' },
    );
    await expect(shop.colourRound.learn({ readingIds: [onPaper.id] })).rejects.toThrow(
      /before it was pressed/,
    );
    const elsewhere = await makeSheet({
      kind: 'colour',
      patches: 40,
      seed: 6,
      blankId: 'shirt-polyester-front',
    });
    const shirt = await printAndMeasure(elsewhere, printer, 3);
    await expect(shop.colourRound.learn({ readingIds: [first.id, shirt.id] })).rejects.toThrow(
      /were not made alike\. The blank is of another kind/,
    );
    await expect(shop.colourRound.learn({ readingIds: [] })).rejects.toThrow(/cannot be understood/);
  }, 60_000);
});

describe('a check sheet', () => {
  let sheetId = '';

  test('printed through the path comes out as asked: good, and as the printer really does', async () => {
    sheetId = await makeSheet({ kind: 'check', pathId: path.id, patches: 36 });
    const reading = await printAndMeasure(sheetId, printer, 11);
    const check = pathCheckSchema.parse(await shop.colourRound.check(path.id, reading.id));
    expect(check.sentences[0]).toMatch(/^Good: /);
    expect(check.verdict).toBe('good');
    expect(check.neutrals!.count).toBeGreaterThanOrEqual(8);
    expect(check.limited!.count).toBeGreaterThanOrEqual(2);
    expect(check.overall.count + check.limited!.count).toBe(36);
    // The bound this program sets itself for a whole loop with an instrument: 1.5 within reach.
    expect(check.overall.mean).toBeLessThan(1.5);
    // Worked out again from the printer itself, without the program: white-relative, no noise.
    const wanted = (await shop.testSheets.wantedOf(sheetId))!;
    const order = (await shop.testSheets.orderOf(sheetId))!;
    const white = xyzFromLab(printer.print([[1, 1, 1]])[0]!);
    const truth = printer.print(wanted.map((one) => order.patches[one.chosen]!.rgb));
    const off = wanted.flatMap((one, i) =>
      one.kind === 'limited' ? [] : deltaE00(one.relativeLab, labFromXyz(xyzFromLab(truth[i]!), white)),
    );
    const mean = off.reduce((sum, v) => sum + v, 0) / off.length;
    expect(Math.abs(check.overall.mean - mean)).toBeLessThan(0.35);
    expect(await shop.colourRound.checks(path.id)).toEqual([check]);
  }, 60_000);

  test('with ink that has lost strength: stale, and so are sheets that use the path', async () => {
    const reading = await printAndMeasure(sheetId, tired, 12);
    const check = await shop.colourRound.check(path.id, reading.id);
    expect(check.verdict).toBe('stale');
    expect(check.overall.mean).toBeGreaterThan(3);
    expect(check.sentences.join(' ')).toMatch(/risen plainly/);
    const standing = pathStandingSchema.parse(await shop.colourRound.standing(path.id));
    expect(standing.standing).toBe('stale');
    expect(standing.reasons.map((reason) => reason.what)).toEqual(['check']);
    expect(standing.lastCheck).toMatchObject({ id: check.id });
  }, 60_000);

  test('of another path or of no check at all is refused', async () => {
    await expect(shop.colourRound.check(path.id, first.id)).rejects.toThrow(/not a check sheet/);
    const other = await shop.colourRound.learn({ readingIds: [first.id], name: 'Other' });
    const [check] = await shop.colourRound.checks(path.id);
    await expect(shop.colourRound.check(other.id, check!.readingId)).rejects.toThrow(/through another path/);
  }, 60_000);
});

describe('whether a path fits', () => {
  test('a changed ink, recipe or driver setting is told with then and now', async () => {
    const fresh = await shop.colourRound.learn({ readingIds: [first.id], name: 'Fresh' });
    expect(await shop.colourRound.standing(fresh.id)).toMatchObject({ standing: 'fits', reasons: [] });
    const setup = await shop.setups.get(about.setupId);
    await shop.setups.save(setup.id, { ...setup, ink: 'Another ink', driverSettings: ['Fast'] });
    const blank = await shop.blanks.get(about.blankId);
    const { recipe } = blank;
    await shop.blanks.save(blank.id, { ...blank, recipe: { ...recipe, platenC: recipe.platenC - 6 } });
    const standing = await shop.colourRound.standing(fresh.id);
    expect(standing.standing).toBe('stale');
    expect(standing.reasons.map((reason) => reason.what)).toEqual(['ink', 'driver', 'recipe']);
    expect(standing.reasons[0]!.sentence).toBe(
      `The ink has changed: “${setup.ink}” then, “Another ink” now.`,
    );
    expect(standing.reasons[2]!.sentence).toMatch(/ °C, \d+ s, \w+ pressure then, .* now\.$/);
    await shop.setups.save(setup.id, { ...setup, colourPathId: null });
    await shop.blanks.save(blank.id, blank);
  }, 60_000);
});

describe('a grey sheet judged by eye', () => {
  const white = xyzFromLab(printer.print([[1, 1, 1]])[0]!);
  const seen = (rgb: Triple): Triple3 =>
    labFromXyz(xyzFromLab(printer.print([rgb.map((v) => v / 255) as Triple3])[0]!), white);
  const chroma = (rgb: Triple): number => Math.hypot(seen(rgb)[1], seen(rgb)[2]);
  const mean = (values: number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
  const bestOf = <T>(all: readonly T[], cost: (one: T) => number): T =>
    all.reduce((best, one) => (cost(one) < cost(best) ? one : best));

  /** An eye that sees well: picks by what the printer really printed. */
  function picksOf({ id, grey }: TestSheet) {
    const steps = (question: string) => grey!.tone.find((row) => row.question === question)!.steps;
    const told = (from: Triple, question: string): string =>
      (
        steps(question).find((step) => deltaE00(seen(step.deviceRgb), seen(from)) > 1.5) ??
        steps(question).at(-1)!
      ).label;
    return {
      sheetId: id,
      neutrals: grey!.rows.map((row) => bestOf(row.candidates, (one) => chroma(one.deviceRgb)).label),
      fromBlack: told([0, 0, 0], 'from-black'),
      fromWhite: told([255, 255, 255], 'from-white'),
      // A grey card reflects 18 %: L* 49.5.
      likeCard: bestOf(steps('like-card'), (step) => Math.abs(seen(step.deviceRgb)[0] - 49.5)).label,
    };
  }

  /** What the path's greys really look like, beside the plain driver's of about the same lightness. */
  async function casts(pathId: string): Promise<{ own: number; plain: number }> {
    const look = await shop.paths.look(pathId);
    const middle = look.neutrals.filter((one) => one.wantedL >= 25 && one.wantedL <= 85);
    const levels = Array.from({ length: 256 }, (_, v): Triple => [v, v, v]);
    return {
      own: mean(middle.map((one) => chroma(one.deviceRgb))),
      plain: mean(
        middle.map((one) =>
          chroma(bestOf(levels, (grey) => Math.abs(seen(grey)[0] - seen(one.deviceRgb)[0]))),
        ),
      ),
    };
  }

  test('gives a path of grade E with less of a cast than the plain driver; a second round takes more of it', async () => {
    const sheet = await shop.testSheets.make({ ...about, kind: 'grey' }, { format: 'png' });
    const path = await shop.colourRound.byEye(picksOf(sheet));
    expect(path).toMatchObject({ origin: 'by-eye', measurement: { grade: 'E' } });
    const once = await casts(path.id);
    const again = await shop.testSheets.make({ ...about, kind: 'grey', pathId: path.id }, { format: 'png' });
    const second = await shop.colourRound.byEye(picksOf(again));
    expect(second.measurement!.adaptedFrom).toBe(path.name);
    const twice = await casts(second.id);
    expect(once.own).toBeLessThan(0.8 * once.plain);
    expect(twice.own).toBeLessThan(0.8 * once.own);
    await expect(
      shop.colourRound.byEye({
        sheetId: sheet.id,
        neutrals: sheet.grey!.rows.map(() => 'ZZ'),
        fromBlack: 'A',
        fromWhite: 'A',
        likeCard: 'A',
      }),
    ).rejects.toThrow(/no “ZZ” in that row/);
  }, 60_000);
});
