import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deltaE00, labFromSrgb, linearToSrgb } from '#craft/colour';
import type { ChartReading, LinearRgb } from '#craft/patchreading';
import { chartOverlay, closeVision, readChartPicture } from '#shop/vision';
import { cropped, fieldOf, glinting, vignetted, type WrittenChart, writeChart } from './chart.js';
import { errorsOf, said, soundShare } from './chart-errors.js';
import { ink, type Picture, photograph, press, scan, toFile } from './index.js';

let small: WrittenChart;
let piece: Picture;
beforeAll(async () => {
  small = await writeChart({ widthMm: 118, heightMm: 84, count: 30, seed: 6, ppi: 200 });
  piece = press(ink(small.picture));
});
afterAll(closeVision);

const png = (picture: Picture): Promise<Buffer> => toFile(picture, { format: 'png', ppi: picture.ppi });
const times = (picture: Picture, by: number): Picture => ({
  ...picture,
  data: picture.data.map((v) => v * by),
});

/** CIEDE2000 of route patches from the simulator's own solid fields, as in `errorsOf`. */
function routeErrors({ routeStrip, groundRgb }: ChartReading, surface: 'paper' | 'piece'): number[] {
  const white = fieldOf([255, 255, 255], surface);
  const lab = (rgb: LinearRgb, ground: LinearRgb): ReturnType<typeof labFromSrgb> =>
    labFromSrgb(rgb.map((v, c) => linearToSrgb(Math.max(0, v / ground[c]!))) as unknown as LinearRgb);
  return routeStrip
    .filter(({ isSound }) => isSound)
    .map(({ deviceRgb, seenRgb }) =>
      deltaE00(lab(seenRgb, groundRgb), lab(fieldOf(deviceRgb, surface), white)),
    );
}

describe('the route strip of a chart', () => {
  it.each(['paper', 'piece'] as const)('is read in even light, on %s', async (surface) => {
    const lying = surface === 'paper' ? ink(small.picture) : piece;
    const seen = vignetted(scan(lying, { ppi: 200, turnDegrees: 92, seed: 5 }), 0.3);
    const { reading } = await readChartPicture(await png(seen));
    expect(reading.lightRatio).toBeGreaterThan(1.1);
    expect(reading.routeStrip.map(({ name }) => name)).toEqual(
      small.layout.frame.routeStrip.map(({ name }) => name),
    );
    expect(reading.routeStrip.every(({ isSound }) => isSound)).toBe(true);
    const errors = routeErrors(reading, surface);
    console.info(`route strip on ${surface}: ΔE00`, Math.max(...errors).toFixed(2));
    expect(Math.max(...errors)).toBeLessThan(1);
  });

  it('is flagged under a glint, and left out where it is cut off', async () => {
    const { routeStrip, widthMm, heightMm } = { ...small.layout, ...small.layout.frame };
    const middle = routeStrip[5]!.rect;
    const flat = scan(piece, { ppi: 200, seed: 5, marginMm: 0 });
    const spot = {
      x: (middle.xMm + middle.widthMm / 2) / widthMm,
      y: (middle.yMm + middle.heightMm / 2) / heightMm,
      radius: 0.03,
      light: 0.3,
    };
    const { reading: glint } = await readChartPicture(await png(glinting(flat, spot)));
    expect(glint.routeStrip.find(({ name }) => name === routeStrip[5]!.name)?.isSound).toBe(false);
    expect(glint.routeStrip.filter(({ isSound }) => isSound).length).toBeGreaterThan(4);
    expect(Math.max(...routeErrors(glint, 'piece'))).toBeLessThan(3.5);
    // Everything below the middle of the strip is cut off, and with it two corner marks; the patches are all there.
    const bottom = (middle.yMm + middle.heightMm / 2) / heightMm;
    const { reading: cut } = await readChartPicture(
      await png(cropped(flat, { left: 0, top: 0, right: 1, bottom })),
    );
    expect(cut.routeStrip).toEqual([]);
    expect(cut.outside).toBe(0);
    expect(errorsOf(cut).mean).toBeLessThan(0.2);
  });
});

describe('a scan with a fault', () => {
  it('exposed so that the ground is clipped: said, and no clipped patch is used', async () => {
    const seen = times(scan(piece, { ppi: 150, seed: 1 }), 1.25);
    const { reading } = await readChartPicture(await png(seen));
    expect(reading.remarks.join(' ')).toMatch(/as light as the picture can hold/);
    expect(reading.remarks.join(' ')).toMatch(/brightness/);
    const light = reading.patches.filter(({ deviceRgb }) => Math.min(...deviceRgb) === 255);
    expect(light.length).toBeGreaterThan(1);
    for (const patch of light) {
      expect(patch.warnings).toContain('clipped');
      expect(patch.isSound).toBe(false);
    }
    // What is not clipped is as light as it was made: beside the simulator's own fields, times the exposure.
    for (const { deviceRgb, seenRgb } of reading.patches.filter(({ isSound }) => isSound)) {
      fieldOf(deviceRgb, 'piece').forEach((v, c) => {
        expect(Math.abs(seenRgb[c]! - 1.25 * v)).toBeLessThan(0.02);
      });
    }
  });

  it('exposed far too much: refused with what to do', async () => {
    const seen = times(scan(piece, { ppi: 150, seed: 1 }), 8);
    expect(await said(readChartPicture(await png(seen)))).toMatch(
      /^scan\..*(brightness|exposure|glare|correction|300 ppi)/,
    );
  });

  it('much too dark: read, and right', async () => {
    const seen = times(scan(piece, { ppi: 150, seed: 1, noise: 0.001 }), 0.2);
    const { reading } = await readChartPicture(await png(seen));
    expect(soundShare(reading)).toBeGreaterThan(0.9);
    expect(errorsOf(reading).mean).toBeLessThan(0.6);
  });

  it('full of dust and hairs: what lies under them is left out of the mean or named', async () => {
    const seen = scan(piece, { ppi: 200, dust: 160, seed: 11 });
    const { reading } = await readChartPicture(await png(seen));
    const error = errorsOf(reading);
    console.info('dust and hairs: ΔE00', error, `${Math.round(100 * soundShare(reading))} % sound`);
    expect(soundShare(reading)).toBeGreaterThan(0.8);
    expect(error.mean).toBeLessThan(0.2);
    expect(error.most).toBeLessThan(1.5);
  });

  it('photographed slantwise on a table in a warm light, with the phone turned', async () => {
    const seen = photograph(piece, {
      widthPixels: 1500,
      heightPixels: 1500,
      tilt: -18,
      pan: 12,
      roll: 200,
      cast: [1, 0.85, 0.6],
      vignetting: 0.3,
      seed: 9,
    });
    const file = await toFile(seen, { format: 'jpeg', quality: 80, camera: true });
    const { reading } = await readChartPicture(file, { subject: 'piece' });
    const error = errorsOf(reading);
    console.info('warm photograph: ΔE00', error);
    expect(reading.lie).toMatchObject({ turnedDegrees: 180, mirrored: false });
    expect(error.mean).toBeLessThan(0.7);
    expect(reading.remarks.join(' ')).toMatch(/JPEG/);
  });

  it('whose file is of another type than its name says', async () => {
    const folder = await mkdtemp(path.join(tmpdir(), 'chart-'));
    try {
      const seen = scan(piece, { ppi: 150, seed: 1 });
      const lying = path.join(folder, 'scan.png');
      await writeFile(lying, await toFile(seen, { format: 'jpeg', quality: 95, ppi: 150 }));
      // What it is counts, not what it is called.
      expect(errorsOf((await readChartPicture(lying)).reading).mean).toBeLessThan(0.4);
      const good = await png(seen);
      const head = path.join(folder, 'head.png');
      await writeFile(head, Buffer.concat([good.subarray(0, 60), Buffer.alloc(5000, 7)]));
      expect(await said(readChartPicture(head))).toMatch(/^image\.unreadable: .*Scan the sheet again/);
      const words = path.join(folder, 'words.tif');
      await writeFile(words, '%PDF-1.4 of the regatta\n');
      expect(await said(readChartPicture(words))).toMatch(/^image\.wrong-type: .*PNG, JPEG or TIFF/);
    } finally {
      await rm(folder, { recursive: true });
    }
  });
});

describe('the picture with what was read drawn over it', () => {
  it('stands upright whichever way the sheet lay, and marks doubtful patches', async () => {
    for (const turnDegrees of [0, 90, 180, 270]) {
      const spot = { x: 0.45, y: 0.5, radius: 0.05, light: 0.4 };
      const seen = glinting(scan(piece, { ppi: 150, turnDegrees, seed: 1 }), spot);
      const file = await png(seen);
      const read = await readChartPicture(file);
      const { jpeg, widthPixels, heightPixels } = await chartOverlay(file, read, { maxPixels: 500 });
      expect(Math.max(widthPixels, heightPixels)).toBe(500);
      expect(widthPixels).toBeGreaterThan(heightPixels);
      const { data, info } = await sharp(jpeg).raw().toBuffer({ resolveWithObject: true });
      expect([info.width, info.height]).toEqual([widthPixels, heightPixels]);
      // The strip's magenta, the third of its twelve, lies at the bottom left; upright and not mirrored.
      const magenta = small.layout.frame.routeStrip.find(({ name }) => name === 'M')!.rect;
      const around = 0.025 * 118;
      const x = Math.round(
        ((magenta.xMm + 0.5 * magenta.widthMm + around) / (118 + 2 * around)) * widthPixels,
      );
      const y = Math.round(
        ((magenta.yMm + 0.5 * magenta.heightMm + around) / (84 + 2 * around)) * heightPixels,
      );
      const [r, g, b] = data.subarray(3 * (y * info.width + x));
      expect(Math.min(r!, b!) - g!, `turned ${turnDegrees}`).toBeGreaterThan(60);
      // Amber is drawn where there is doubt, and nowhere else.
      const doubtful = read.reading.patches.filter(({ isSound }) => !isSound).length;
      expect(doubtful).toBeGreaterThan(0);
      const clean = await chartOverlay(
        file,
        {
          ...read,
          reading: {
            ...read.reading,
            patches: read.reading.patches.map((patch) => ({ ...patch, isSound: true })),
            routeStrip: read.reading.routeStrip.map((patch) => ({ ...patch, isSound: true })),
          },
        },
        { maxPixels: 500 },
      );
      const other = await sharp(clean.jpeg).raw().toBuffer();
      let differs = 0;
      for (let i = 0; i < data.length; i += 3) if (Math.abs(data[i + 2]! - other[i + 2]!) > 60) differs += 1;
      expect(differs).toBeGreaterThan(40 * doubtful);
      expect(differs).toBeLessThan(0.2 * (data.length / 3));
    }
  });

  it('of a file that is none or gone, or no longer wanted', async () => {
    const file = await png(scan(piece, { ppi: 150, seed: 1 }));
    const read = await readChartPicture(file);
    expect(await said(chartOverlay(Buffer.from('words'), read))).toMatch(/^image\.wrong-type/);
    expect(await said(chartOverlay('/nowhere/scan.png', read))).toMatch(/^file\.missing/);
    expect(await said(chartOverlay(file, read, { signal: AbortSignal.abort() }))).toMatch(/^job\.cancelled/);
  });
});

/** Long: with CHART_CASES, as the seeded pictures of chart.test.ts. */
describe.runIf(process.env.CHART_CASES !== undefined)('at the ends of the resolutions spoken of', () => {
  it.each([150, 300, 600])('at %d ppi a value differs little from the truth', async (ppi) => {
    const fine = await writeChart({ widthMm: 118, heightMm: 84, count: 30, seed: 6, ppi: 400 });
    const seen = vignetted(scan(press(ink(fine.picture)), { ppi, turnDegrees: 2, dust: 20, seed: 8 }), 0.15);
    const { reading } = await readChartPicture(await png(seen));
    const error = errorsOf(reading);
    console.info(`${ppi} ppi: ΔE00`, error);
    expect(soundShare(reading)).toBeGreaterThan(0.97);
    expect(error.mean).toBeLessThan(0.12);
    expect(error.most).toBeLessThan(0.7);
    expect(Math.abs(reading.pixelsPerMm - ppi / 25.4)).toBeLessThan(0.01 * ppi);
  });
});
