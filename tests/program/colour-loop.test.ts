/**
 * The whole colour loop on a printer that is not our model (libvips's CMYK profile run by Little CMS, a driver's tones,
 * invented dyes for its spectra), pressed unevenly, seen by a virtual flatbed and a virtual phone. What the program says
 * of itself is held against the printer's own spectra.
 */
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { ColourPath, PathCheck, Reading } from '#contract';
import { newFolder, openTestShop } from '../shop/fixture.js';
import { halftoneWithSpectra } from '../simulator/halftone-spectra.js';
import { picksOf } from '../simulator/sight.js';
import { unevenPress } from '../simulator/spectral-piece.js';
import { virtualReader } from '../simulator/virtual-reader.js';
import { figures, say, VirtualStudio } from './virtual-studio.js';

vi.setConfig({ testTimeout: 600_000, hookTimeout: 600_000 });

/** More cases, each with chance, readers and presses of its own: COLOUR_LOOP_CASES=6 npm test -- tests/program/colour-loop */
const cases = Number(process.env.COLOUR_LOOP_CASES ?? 1);
const firstCase = Number(process.env.COLOUR_LOOP_FIRST ?? 1);
const small = { widthMm: 148, heightMm: 210 };
const lamps = ['white LED', 'cold cathode', 'xenon'] as const;
const log = (text: string) => console.info(text);

describe.each(Array.from({ length: cases }, (_, i) => firstCase + i))('case %i', (seed) => {
  const { folder, remove } = newFolder();
  let studio: VirtualStudio;
  let close: () => Promise<void>;
  const faults: unknown[] = [];
  let minutes = 0;
  /** Calibration, chart, check …: each pressed another way. */
  const press = (nth: number) => ({ dye: unevenPress(0.04, 75 * nth + 40 * seed), seed: 100 * seed + nth });

  beforeAll(async () => {
    const clock = () => new Date(Date.UTC(2026, 2, 1) + 60_000 * ++minutes);
    const { shop } = await openTestShop({ folder, clock, onFault: (error) => faults.push(error) });
    close = () => shop.close();
    const scanner = virtualReader(10 + seed, lamps[seed % 3]!);
    const about = { setupId: 'desktop-a4', blankId: 'glass-board-280x390' };
    studio = new VirtualStudio(shop, await halftoneWithSpectra(), scanner, about);
    await shop.readers.put('flatbed', { name: 'Flatbed', kind: 'scanner', note: '' });
  });
  afterAll(async () => {
    await close();
    remove();
  });

  let chart: Reading;
  let byTag: number;
  let calibrationReading: Reading;
  let path: ColourPath;
  let checkSheet: { id: string; png: Buffer };
  let first: PathCheck;

  test('an uncalibrated scanner gives grade D, and its stated error covers the truth', async () => {
    const { png } = await studio.sheet({ kind: 'colour', patches: 150, seed: 40 + seed });
    const scan = await studio.scan({ png, ...press(1) });
    chart = await studio.readBy('flatbed', scan, 'chart.png');
    expect(chart.grade).toBe('D');
    expect(chart.patchCount).toBe(150);
    const own = await studio.shop.colourRound.learn({ readingIds: [chart.id], name: 'By the tag' });
    const { sheet } = await studio.sheet({ kind: 'check', pathId: own.id, ...small });
    const truth = await studio.truthOfCheck(sheet.id);
    const { expectedError, grade } = own.measurement!;
    log(
      `D: says ${expectedError.meanDeltaE00.toFixed(2)} / ${expectedError.p95DeltaE00.toFixed(2)}, truth ${truth.mean.toFixed(2)} / ${truth.p95.toFixed(2)}`,
    );
    expect(grade).toBe('D');
    byTag = truth.mean;
    expect(truth.mean).toBeLessThan(expectedError.meanDeltaE00);
  });

  test('calibrated on a sheet of the same ink: the check is within 1.5, and so is the truth', async () => {
    const { shop } = studio;
    const calibration = await studio.sheet({ kind: 'colour', patches: 96, seed: 70 + seed, ...small });
    const pressed = { png: calibration.png, ...press(2) };
    calibrationReading = await studio.readBy('flatbed', await studio.scan(pressed), 'calibration.png');
    const file = await studio.instrumentFile(calibration.sheet.id, pressed);
    const reader = await shop.readings.calibrateReader('flatbed', calibrationReading.id, file);
    log(
      `reader: ${JSON.stringify(reader.calibration!.expectedError)} ${reader.calibration!.remarks.join(' ')}`,
    );
    chart = await shop.readings.convertAgain(chart.id, 'flatbed');
    calibrationReading = await shop.readings.convertAgain(calibrationReading.id, 'flatbed');
    expect(chart.grade).toBe('B');
    path = await shop.colourRound.learn({ readingIds: [chart.id], name: 'Calibrated' });
    const made = await studio.sheet({ kind: 'check', pathId: path.id, patches: 60, ...small });
    checkSheet = { id: made.sheet.id, png: made.png };
    const scan = await studio.scan({ png: made.png, ...press(3) });
    const reading = await studio.readBy('flatbed', scan, 'check.png');
    first = await shop.colourRound.check(path.id, reading.id);
    const truth = await studio.truthOfCheck(made.sheet.id);
    const model = await studio.truthOfModel(path.id);
    const { expectedError } = path.measurement!;
    log(
      `B: path says ${expectedError.meanDeltaE00.toFixed(2)} / ${expectedError.p95DeltaE00.toFixed(2)}; check: ${say(first)}; truth ${truth.mean.toFixed(2)} / ${truth.p95.toFixed(2)}; model on held-out ${model.mean.toFixed(2)} / ${model.p95.toFixed(2)}`,
    );
    log(first.sentences.join('\n'));
    expect(first.grade).toBe('B');
    expect(first.overall.mean).toBeLessThanOrEqual(1.5);
    expect(truth.mean).toBeLessThanOrEqual(1.5);
    expect(first.verdict).toBe('good');
    // The program's word does not flatter: what it found is what is, but for noise and the press.
    expect(Math.abs(first.overall.mean - truth.mean)).toBeLessThan(0.35);
    expect(truth.mean).toBeLessThan(byTag / 3);
  });

  test('a follow-up sheet joined to the first makes the error fall', async () => {
    const { shop } = studio;
    const few = await shop.colourRound.learn({ readingIds: [calibrationReading.id], name: 'Few' });
    const { png } = await studio.sheet({ kind: 'follow-up', pathId: few.id, patches: 40, ...small });
    const more = await studio.readBy('flatbed', await studio.scan({ png, ...press(4) }), 'follow-up.png');
    const joined = await shop.colourRound.learn({
      readingIds: [calibrationReading.id, more.id],
      name: 'Joined',
    });
    const [before, after] = [await studio.truthOfModel(few.id), await studio.truthOfModel(joined.id)];
    const said = [few, joined].map((one) => one.measurement!.expectedError.meanDeltaE00.toFixed(2));
    log(
      `follow-up: 96 patches ${before.mean.toFixed(2)} / ${before.p95.toFixed(2)} (says ${said[0]}), 136 patches ${after.mean.toFixed(2)} / ${after.p95.toFixed(2)} (says ${said[1]})`,
    );
    expect(after.mean).toBeLessThan(before.mean);
  });

  test('with another batch of ink the same check is stale', async () => {
    const { shop } = studio;
    const weaker = await halftoneWithSpectra([1, 0.78, 1]);
    const scan = await studio.scan({ png: checkSheet.png, ...press(5) }, weaker);
    const reading = await studio.readBy('flatbed', scan, 'check-later.png');
    const check = await shop.colourRound.check(path.id, reading.id);
    log(`stale: ${say(check)}`);
    const standing = await shop.colourRound.standing(path.id);
    log(standing.reasons.map((one) => one.sentence).join('\n'));
    expect(check.verdict).toBe('stale');
    expect(standing.standing).toBe('stale');
    expect(check.overall.mean).toBeGreaterThan(2 * first.overall.mean);
  });

  test('a photo with a card beside the piece: grade C, its stated error covers the truth, better than the tag', async () => {
    const { shop } = studio;
    const { png } = await studio.sheet({ kind: 'colour', patches: 96, seed: 90 + seed, ...small });
    const phone = virtualReader(50 + seed, lamps[(seed + 1) % 3]!);
    const { jpeg, card } = await studio.photo({ png, ...press(6) }, phone);
    const about = { fileName: 'photo.jpg', subject: 'piece', from: 'photo' };
    const reading = await shop.readings.read(jpeg, { ...about, card });
    expect(reading.grade).toBe('C');
    const own = await shop.colourRound.learn({ readingIds: [reading.id], name: 'By photo' });
    const { sheet } = await studio.sheet({ kind: 'check', pathId: own.id, ...small });
    const truth = await studio.truthOfCheck(sheet.id);
    const { expectedError } = own.measurement!;
    log(
      `C: says ${figures({ mean: expectedError.meanDeltaE00, p95: expectedError.p95DeltaE00 })}, truth ${figures(truth)}`,
    );
    expect(truth.mean).toBeLessThan(expectedError.meanDeltaE00);
    expect(truth.mean).toBeLessThan(byTag);
  });

  test('by eye: grade E, its stated error covers the truth, and greys are nearer than the plain driver’s', async () => {
    const { shop } = studio;
    const { sheet } = await studio.sheet({ kind: 'grey' });
    const own = await shop.colourRound.byEye(picksOf(sheet, studio.printer, 7 + seed));
    expect(own.measurement!.grade).toBe('E');
    const check = await studio.sheet({ kind: 'check', pathId: own.id, ...small });
    const truth = await studio.truthOfCheck(check.sheet.id);
    const { expectedError } = own.measurement!;
    const look = await shop.paths.look(own.id);
    const greys = studio.castsOf(look.neutrals.filter(({ wantedL }) => wantedL >= 25 && wantedL <= 85));
    log(
      `E: says ${figures({ mean: expectedError.meanDeltaE00, p95: expectedError.p95DeltaE00 })}, truth ${figures(truth)}; cast of greys ${greys.own.toFixed(2)}, plain driver ${greys.plain.toFixed(2)}`,
    );
    expect(truth.mean).toBeLessThan(expectedError.meanDeltaE00);
    expect(greys.own).toBeLessThan(greys.plain);
  });

  test('nothing went wrong that nobody heard of', () => expect(faults).toEqual([]));
});
