import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  applyMatrix,
  displayP3Primaries,
  inverseOf,
  multiplyMatrices,
  opRgbPrimaries,
  rgbToXyzMatrix,
} from '#craft/colour';
import { builtinProfile, encodeProfile } from '#craft/icc';
import { type ChartReading, distinctColours } from '#craft/patchreading';
import { isProblem } from '#craft/problem';
import { newSheetId, spokenSheetId } from '#craft/sheet';
import { choosePatches, planColourSheet } from '#craft/testsheet';
import { closeVision, type ReadChart, type ReadChartOptions, readChartPicture } from '#shop/vision';
import { writeSheet } from './cases.js';
import {
  cropped,
  drawnOut,
  fieldOf,
  glinting,
  sideBySide,
  unevenly,
  vignetted,
  type WrittenChart,
  woven,
  writeChart,
} from './chart.js';
import { errorsOf, said, soundShare } from './chart-errors.js';
import {
  blank,
  chanceOf,
  encode,
  ink,
  type Picture,
  photograph,
  press,
  scan,
  toFile,
  writeMarks,
} from './index.js';

const png = (picture: Picture): Promise<Buffer> => toFile(picture, { format: 'png', ppi: picture.ppi });
const read = async (picture: Picture, options?: ReadChartOptions): Promise<ReadChart> =>
  readChartPicture(await png(picture), options);

let chart: WrittenChart;
let piece: Picture;
let small: WrittenChart;
beforeAll(async () => {
  chart = await writeChart({ widthMm: 148, heightMm: 105, count: 120, seed: 5, ppi: 254 });
  piece = press(ink(chart.picture));
  small = await writeChart({ widthMm: 118, heightMm: 84, count: 30, seed: 6, ppi: 200 });
});

afterAll(closeVision);

describe('a colour test sheet read from a scan', () => {
  it('turned by 3°, with uneven light, dust and 8 bits: a mean error under 0.1, none over 0.5', async () => {
    const seen = vignetted(scan(piece, { ppi: 300, turnDegrees: 3, dust: 60, seed: 2 }), 0.15);
    const { reading } = await read(seen, { subject: 'piece' });
    const error = errorsOf(reading);
    console.info('scan as in the brief: ΔE00', error, 'light', reading.lightRatio.toFixed(3));
    expect(reading.patches.length).toBe(chart.layout.patches.length);
    expect(reading.sheetId).toBe(chart.layout.sheetId);
    expect(soundShare(reading)).toBeGreaterThan(0.97);
    expect(error.mean).toBeLessThan(0.1);
    expect(error.most).toBeLessThan(0.5);
    expect(reading.registration.found).toBe(chart.layout.registration.length);
    expect(reading.lightRatio).toBeGreaterThan(1.05);
    expect(reading.repeatability.meanDeltaE00).toBeLessThan(0.3);
    expect(reading.evenness.isKnown).toBe(false);
    const colours = distinctColours(reading);
    expect(new Set(colours.map(({ deviceRgb }) => deviceRgb.join())).size).toBe(colours.length);
    expect(colours.length).toBeGreaterThan(115);
    const grey = colours.find(({ deviceRgb }) => deviceRgb.join() === '128,128,128')!;
    expect(grey.patches.length).toBeGreaterThan(3);
    grey.rgb.forEach((v, c) => {
      // The vignette takes a little light from the whole, so the ground stands in for white.
      const wanted =
        (fieldOf([128, 128, 128], 'piece')[c]! * reading.groundRgb[c]!) /
        fieldOf([255, 255, 255], 'piece')[c]!;
      expect(Math.abs(v - wanted)).toBeLessThan(0.002);
    });
  });

  it('lying in any of the eight ways, told apart, at 150 ppi', async () => {
    const paper = ink(small.picture);
    const pressed = press(paper);
    for (const surface of ['paper', 'piece'] as const) {
      for (const turnedDegrees of [0, 90, 180, 270] as const) {
        const lying = surface === 'paper' ? paper : pressed;
        const seen = scan(lying, { ppi: 150, turnDegrees: turnedDegrees + 1.2, seed: 9 + turnedDegrees });
        const { reading } = await read(seen, { subject: surface });
        expect(reading.surface).toBe(surface);
        expect(reading.lie).toEqual({ turnedDegrees, mirrored: surface === 'paper' });
        expect(reading.patches.length).toBe(small.layout.patches.length);
        const error = errorsOf(reading, { surface });
        expect(error.mean).toBeLessThan(0.15);
        expect(error.most).toBeLessThan(0.8);
      }
    }
  });

  it('as a JPEG of quality 30: what that loses and no more, and a word on it', async () => {
    const seen = vignetted(scan(piece, { ppi: 200, turnDegrees: 180, dust: 10, seed: 3 }), 0.15);
    const file = await toFile(seen, { format: 'jpeg', quality: 30, ppi: 200 });
    const { reading } = await readChartPicture(file);
    const error = errorsOf(reading);
    console.info('JPEG of quality 30: ΔE00', error);
    expect(reading.patches.length).toBe(chart.layout.patches.length);
    expect(error.mean).toBeLessThan(1.2);
    expect(error.most).toBeLessThan(4);
    expect(reading.remarks.join(' ')).toMatch(/JPEG.*loses/);
  });

  it('as a JPEG squeezed until it can no longer be read, the squeezing is named', async () => {
    const seen = scan(piece, { ppi: 150, seed: 3 });
    const file = await toFile(seen, { format: 'jpeg', quality: 8, ppi: 150 });
    await expect(readChartPicture(file)).rejects.toMatchObject({
      code: 'scan.unclear',
      remedy: expect.stringMatching(/strong compression.*PNG or TIFF/),
    });
  });

  it('photographed slantwise by a phone', async () => {
    const seen = photograph(piece, {
      widthPixels: 1800,
      heightPixels: 1400,
      tilt: 12,
      pan: -9,
      roll: 4,
      vignetting: 0.25,
      cast: [1, 0.95, 0.8],
      seed: 4,
    });
    const file = await toFile(seen, { format: 'jpeg', quality: 85, camera: true });
    const { reading } = await readChartPicture(file);
    const error = errorsOf(reading);
    console.info('photograph: ΔE00', error, 'light', reading.lightRatio.toFixed(3));
    expect(error.mean).toBeLessThan(0.5);
    expect(soundShare(reading)).toBeGreaterThan(0.9);
  });

  it('with a glint: the patches under it are named, the others are right', async () => {
    const spot = { x: 0.3, y: 0.4, radius: 0.05, light: 0.3 };
    const { reading } = await read(glinting(scan(piece, { ppi: 200, seed: 3 }), spot));
    const error = errorsOf(reading);
    console.info('glint: ΔE00 of the sound', error, `${Math.round(100 * soundShare(reading))} % sound`);
    expect(soundShare(reading)).toBeGreaterThan(0.75);
    expect(soundShare(reading)).toBeLessThan(0.97);
    expect(error.mean).toBeLessThan(0.25);
    expect(error.most).toBeLessThan(3);
    expect(reading.remarks.join(' ')).toMatch(/glint/);
  });

  it('curled or drawn out by 1.8 mm: followed', async () => {
    const { reading } = await read(scan(drawnOut(piece, 1.5, -1), { ppi: 200, seed: 3 }));
    const error = errorsOf(reading);
    expect(soundShare(reading)).toBeGreaterThan(0.97);
    expect(error.mean).toBeLessThan(0.1);
    expect(reading.registration.largestShiftMm).toBeGreaterThan(0.7);
    expect(reading.remarks.join(' ')).toMatch(/stretched by up to 1/);
  });

  it('on cloth with a coarse weave, shrunk and drawn out', async () => {
    const cloth = await writeChart({
      widthMm: 210,
      heightMm: 148,
      count: 80,
      seed: 8,
      material: 'fabric',
      variant: 'bands',
      ppi: 150,
    });
    const pressed = drawnOut(press(ink(cloth.picture), { shrink: 0.985, spreadMm: 0.2 }), -1, 0.6);
    const seen = await png(woven(scan(pressed, { ppi: 200, seed: 3 }), 0.5, 0.25));
    // Such cloth swallows a code of the usual size: the person says which sheet it is.
    expect(await said(readChartPicture(seen))).toMatch(/say which colour test sheet it is/);
    const { sheetId } = cloth.layout;
    const orderOfSheet = (): ReturnType<typeof orderOf> => orderOf(cloth, 80, 8);
    const { reading } = await readChartPicture(seen, { expectedSheetId: sheetId, orderOf: orderOfSheet });
    const error = errorsOf(reading);
    console.info('cloth: ΔE00', error);
    expect(soundShare(reading)).toBeGreaterThan(0.95);
    expect(error.mean).toBeLessThan(0.2);
    expect(reading.patches[10]!.sd.every((sd) => sd > 0)).toBe(true);
  });

  it('from 16 bits through the curves of the picture’s own profile', async () => {
    const seen = scan(press(ink(small.picture)), { ppi: 150, seed: 5 });
    const samples = Uint16Array.from(seen.data, (v) =>
      Math.round(65535 * encode(Math.min(1, Math.max(0, v)))),
    );
    const raw = { width: seen.width, height: seen.height, channels: 3 } as const;
    const folder = await mkdtemp(path.join(tmpdir(), 'chart-'));
    try {
      const icc = path.join(folder, 'reader.icc');
      await writeFile(icc, encodeProfile(builtinProfile('adobe-rgb-compatible')));
      const tagged = await sharp(samples, { raw })
        .toColourspace('rgb16')
        .withIccProfile(icc)
        .tiff({ compression: 'lzw' })
        .toBuffer();
      const { reading, reader } = await readChartPicture(tagged);
      expect(reader).toMatchObject({ bits: 16, curve: 'profile' });
      expect(reader.icc?.length).toBeGreaterThan(128);
      const plain = await readChartPicture(await toFile(seen, { format: 'png' }));
      expect(plain.reader).toMatchObject({ bits: 8, curve: 'srgb' });
      // sharp takes untagged 16-bit samples as Display P3 and wrote them in the profile's primaries, with its curve.
      // With both curves undone the two readings differ by a matrix alone, where no channel was clipped.
      const toOther = multiplyMatrices(
        inverseOf(rgbToXyzMatrix(opRgbPrimaries)),
        rgbToXyzMatrix(displayP3Primaries),
      );
      const off = reading.patches.flatMap((patch, i) => {
        const wanted = applyMatrix(toOther, plain.reading.patches[i]!.seenRgb);
        if (!wanted.every((v) => v > 0.01 && v < 0.99)) return [];
        return [Math.max(...wanted.map((v, c) => Math.abs(v - patch.seenRgb[c]!)))];
      });
      expect(off.length).toBeGreaterThan(30);
      expect(Math.max(...off)).toBeLessThan(0.004);
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});

describe('how evenly it was pressed', () => {
  it('is told from colour and taken out', async () => {
    const dye = (u: number, v: number): number => 1.03 - 0.09 * u * u - 0.035 * v * v + 0.03 * u;
    const { reading } = await read(scan(unevenly(piece, dye), { ppi: 200, seed: 3 }));
    const seen = errorsOf(reading, { which: 'seenRgb' });
    const even = errorsOf(reading);
    console.info('uneven press: ΔE00 as seen', seen, 'evened', even);
    expect(reading.evenness.isKnown).toBe(true);
    expect(even.mean).toBeLessThan(0.2);
    expect(even.mean).toBeLessThan(0.25 * seen.mean);
    const middle = dye(0.1, 0);
    const corner = dye(-0.92, 0.7);
    expect(reading.evenness.least.where).toMatch(/left/);
    expect(reading.evenness.least.dye / reading.evenness.most.dye).toBeCloseTo(corner / middle, 1);
    expect(reading.remarks.join(' ')).toMatch(/less dye at the (top|bottom) left/);
  });

  it('is taken out for the most part too where the dye follows another law', async () => {
    // Light mixed in from the ground, as where dots have not taken: not what the reader assumes.
    const { width, height } = piece;
    const patchy: Picture = {
      ...piece,
      data: Float32Array.from(piece.data, (v, i) => {
        const x = Math.floor(i / 3) % width;
        const y = Math.floor(i / 3 / width);
        const bare = 0.03 * (((2 * x) / width - 1) ** 2 + ((2 * y) / height - 1) ** 2);
        return v + bare * ([0.92, 0.92, 0.9][i % 3]! - v);
      }),
    };
    const { reading } = await read(scan(patchy, { ppi: 200, seed: 3 }));
    // The level of the whole is not to be known from the sheet, so likes are compared, not truths.
    const spread = (which: 'seenRgb' | 'evenRgb'): number => {
      const greys = reading.patches.filter((p) => p.deviceRgb.every((v) => v === 128));
      const lights = greys.map((p) => p[which][1]!);
      return Math.max(...lights) - Math.min(...lights);
    };
    expect(reading.evenness.isKnown).toBe(true);
    expect(spread('evenRgb')).toBeLessThan(0.5 * spread('seenRgb'));
  });
});

describe('a picture that cannot be read as asked', () => {
  it('with its left side cut off: the rest is read rightly, and it is said', async () => {
    const whole = scan(piece, { ppi: 200, seed: 7 });
    const cut = cropped(whole, { left: 0.14, top: 0, right: 1, bottom: 1 });
    expect(await said(read(cut))).toMatch(/^scan\.no-marks.*whole/);
    const right = cropped(whole, { left: 0, top: 0, right: 0.8, bottom: 1 });
    const { reading } = await read(right);
    expect(reading.outside).toBeGreaterThan(10);
    expect(reading.remarks[0]).toMatch(/patches lie outside the picture/);
    expect(errorsOf(reading).mean).toBeLessThan(0.15);
    expect(errorsOf(reading).most).toBeLessThan(1);
    const half = cropped(whole, { left: 0, top: 0, right: 0.45, bottom: 1 });
    expect(await said(read(half))).toMatch(/^scan\.(unclear|no-marks).*[Ss]how the whole|whole sheet/);
  });

  it('with the marker beside the code covered: read when the person says which sheet it is', async () => {
    const seen = scan(piece, { ppi: 200, seed: 7 });
    for (let y = 0; y < 0.22 * seen.height; y += 1) {
      seen.data.fill(0.3, 3 * seen.width * y, 3 * (seen.width * y + Math.round(0.22 * seen.width)));
    }
    expect(await said(read(seen))).toMatch(/^scan\.no-marks.*say which colour test sheet it is/);
    const { sheetId } = chart.layout;
    const { reading } = await read(seen, {
      expectedSheetId: sheetId,
      orderOf: () => orderOf(chart, 120, 5),
    });
    // What lies under the cover is no patch; all else is right.
    expect(soundShare(reading)).toBeGreaterThan(0.9);
    expect(errorsOf(reading).mean).toBeLessThan(0.15);
    expect(errorsOf(reading).most).toBeLessThan(1);
    // A sheet of the same size but other patches is not taken for it.
    const other = { ...orderOf(chart, 120, 99), sheetId };
    expect(await said(read(seen, { expectedSheetId: sheetId, orderOf: () => other }))).toMatch(
      /^scan\.(wrong-sheet|unclear)/,
    );
  });

  it('of two sheets, a blank page, or a coarse picture', async () => {
    const one = scan(press(ink(small.picture)), { ppi: 150, seed: 1 });
    const again = await writeChart({ widthMm: 118, heightMm: 84, count: 30, seed: 7, ppi: 200 });
    const other = scan(press(ink(again.picture)), { ppi: 150, seed: 2 });
    const words = await said(read(sideBySide(one, other)));
    expect(words).toMatch(/more than one sheet.*one sheet at a time/);
    for (const { layout } of [small, again]) expect(words).toContain(spokenSheetId(layout.sheetId));
    expect(await said(read(blank(800, 600, 150, [0.9, 0.9, 0.9])))).toMatch(
      /^scan\.no-marks.*Show the whole/,
    );
    const coarse = scan(press(ink(small.picture)), { ppi: 75, seed: 1 });
    expect(await said(read(coarse))).toMatch(/^scan\.(unclear|no-marks).*300 ppi/);
  });

  it('of another sheet than the one asked for', async () => {
    const seen = await png(scan(press(ink(small.picture)), { ppi: 150, seed: 1 }));
    expect(await said(readChartPicture(seen, { expectedSheetId: chart.layout.sheetId }))).toMatch(
      /^scan\.wrong-sheet: This is sheet .* not the one asked for/,
    );
    expect(await said(readChartPicture(seen, { subject: 'paper' }))).toMatch(
      /^scan\.wrong-sheet: This is the pressed piece, not the printed paper/,
    );
    const ordinary = await writeSheet(1, { widthMm: 118, heightMm: 84, ppi: 200, mirror: true });
    const picture = scan(press(ink(ordinary.picture)), { ppi: 150, seed: 1 });
    expect(await said(read(picture))).toMatch(/is not a colour test sheet that this shop knows/);
  });

  it('of a sheet whose patches were changed or moved after planning: refused, never read askew', async () => {
    const { widthMm, heightMm, frame } = small.layout;
    const turned = small.plan.marks.map((mark) => {
      if (mark.role !== 'patch' || mark.kind !== 'fill') return mark;
      const { area } = small.layout;
      const yMm = 2 * area.yMm + area.heightMm - mark.rect.yMm - mark.rect.heightMm;
      return { ...mark, rect: { ...mark.rect, yMm } };
    });
    const moved = await writeMarks({ frame, marks: turned } as never, widthMm, heightMm, 200, {
      mirror: true,
    });
    const seen = scan(press(ink(moved)), { ppi: 150, seed: 1 });
    expect(await said(read(seen))).toMatch(/^scan\.(wrong-sheet|unclear)/);
  });

  it('of a file that is none', async () => {
    const seen = await png(scan(press(ink(small.picture)), { ppi: 150, seed: 1 }));
    expect(await said(readChartPicture(seen.subarray(0, seen.length / 2)))).toMatch(/^image\.unreadable/);
    expect(await said(readChartPicture(Buffer.from('no picture')))).toMatch(/^image\.wrong-type/);
    expect(await said(readChartPicture('/nowhere/scan.png'))).toMatch(/^file\.missing/);
    const grey = await sharp(seen).toColourspace('b-w').png().toBuffer();
    expect(await said(readChartPicture(grey))).toMatch(/not an RGB colour picture.*in colour/);
  });
});

/** More cases by `CHART_CASES=300 CHART_FIRST=101 npx vitest run tests/simulator/chart.test.ts`. */
const cases = Number(process.env.CHART_CASES ?? 6);
const firstSeed = Number(process.env.CHART_FIRST ?? 1);

describe('any picture at all', () => {
  it(`is read rightly or refused with a sentence, in ${cases} seeded ones`, async () => {
    const pressed = press(ink(small.picture));
    const counts = { read: 0, refused: 0 };
    for (let seed = firstSeed; seed < firstSeed + cases; seed += 1) {
      const chance = chanceOf(seed * 104_729);
      let seen = drawnOut(pressed, chance.between(-1.5, 1.5), chance.between(-1.5, 1.5));
      seen = scan(seen, {
        ppi: chance.pick([120, 150, 200]),
        turnDegrees: chance.between(0, 360),
        blurPixels: chance.between(0.3, 1.2),
        noise: chance.between(0, 0.03),
        dust: Math.floor(chance.between(0, 120)),
        lid: chance.pick([0.9, 0.05]),
        seed,
      });
      if (chance.next() < 0.5) seen = vignetted(seen, chance.between(0, 0.5));
      if (chance.next() < 0.4) {
        const [x, y] = [chance.next(), chance.next()];
        seen = glinting(seen, { x, y, radius: chance.between(0.02, 0.2), light: chance.between(0.1, 1) });
      }
      if (chance.next() < 0.4) {
        const [left, top] = [chance.between(0, 0.1), chance.between(0, 0.1)];
        seen = cropped(seen, { left, top, right: chance.between(0.9, 1), bottom: chance.between(0.9, 1) });
      }
      const quality = chance.pick([30, 75, 95]);
      const file = await toFile(seen, { format: 'jpeg', quality });
      let reading: ChartReading;
      try {
        ({ reading } = await readChartPicture(file));
      } catch (error) {
        if (!isProblem(error) || !error.code.startsWith('scan.')) throw error;
        if (process.env.CHART_CASES) console.info(`seed ${seed}: ${error.message} ${error.where ?? ''}`);
        counts.refused += 1;
        continue;
      }
      counts.read += 1;
      const error = errorsOf(reading);
      // A patch taken for another would be wrong by tens.
      expect(error.mean, `seed ${seed}`).toBeLessThan(3);
      expect(error.most, `seed ${seed}`).toBeLessThan(14);
    }
    console.info('seeded charts', JSON.stringify(counts));
    expect(counts.read).toBeGreaterThanOrEqual(Math.floor(0.4 * cases));
  }, 3_600_000);
});

describe('a sheet that does not say what it is', () => {
  it('is read by the shop’s record', async () => {
    const sheetId = newSheetId(Uint8Array.from([1, 2, 3, 4, 5, 6]));
    const order = { ...orderOf(small, 30, 1234), sheetId };
    const planned = planColourSheet(order);
    const { marks } = planned.plan;
    const written = await writeMarks({ marks } as never, order.widthMm, order.heightMm, 200, {
      mirror: true,
    });
    const seen = await png(scan(press(ink(written)), { ppi: 150, seed: 1 }));
    expect(await said(readChartPicture(seen))).toMatch(/not a colour test sheet that this shop knows/);
    const asked: string[] = [];
    const { reading } = await readChartPicture(seen, {
      orderOf: (id) => {
        asked.push(id);
        return order;
      },
    });
    expect(asked).toEqual([sheetId]);
    expect(reading.patches.map(({ deviceRgb }) => deviceRgb)).toEqual(
      planned.layout.patches.map(({ deviceRgb }) => deviceRgb),
    );
    expect(errorsOf(reading).mean).toBeLessThan(0.15);
  });
});

function orderOf(written: WrittenChart, count: number, seed: number): Parameters<typeof planColourSheet>[0] {
  const { sheetId, widthMm, heightMm, material, mirrorOnWriting } = written.layout;
  const { variant } = written;
  const patches = choosePatches(count, seed);
  return { sheetId, widthMm, heightMm, material, mirrorOnWriting, marginMm: 3, seed, patches, variant };
}
