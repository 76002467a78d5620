import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp, { type Region } from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { frameVariants, type PlannedFrame } from '#craft/sheet';
import { closeVision, readSheetPicture } from '#shop/vision';
import { type Route, writeSheet } from '../../../tests/simulator/cases.js';
import { blank, drive, ink, type Picture, photograph, scan, toFile } from '../../../tests/simulator/index.js';

const perMm = 10;
const paper = { subject: 'paper' } as const;
let folder: string;
let printed: Picture;
let other: Picture;
let good: Buffer;
let sheetId: string;
let frame: PlannedFrame;

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'vision-'));
  const size = { widthMm: 118, heightMm: 84, ppi: 25.4 * perMm, mirror: true };
  const sheet = await writeSheet(1, size);
  ({ sheetId, frame } = sheet);
  printed = ink(sheet.picture);
  other = ink((await writeSheet(2, size)).picture);
  good = await toFile(scan(printed, { ppi: 200, turnDegrees: 2, seed: 1 }), { format: 'png', ppi: 200 });
});
afterAll(async () => {
  await closeVision();
  rmSync(folder, { recursive: true, force: true });
});

/** Part of a picture, in its pixels. */
async function cutOut(file: Buffer, keep: (w: number, h: number) => Region): Promise<Buffer> {
  const { width, height } = await sharp(file).metadata();
  return sharp(file).extract(keep(width, height)).withMetadata({ density: 200 }).png().toBuffer();
}

describe('a picture of a sheet', () => {
  it('is read from a path as from bytes', async () => {
    const file = path.join(folder, 'scan.png');
    writeFileSync(file, good);
    const reading = await readSheetPicture(file, paper);
    expect(reading).toEqual(await readSheetPicture(good, paper));
    expect(reading).toMatchObject({
      sheetId,
      fileMirrored: true,
      mirroring: 'right',
      scale: 'right',
      markersFound: 4,
    });
    expect(reading.routeStrip.map(({ name }) => name)).toEqual(
      frame.frame.routeStrip.map(({ name }) => name),
    );
  });

  it('shows the route strip’s colours where they are', async () => {
    const { routeStrip } = await readSheetPicture(good, paper);
    const seen = Object.fromEntries(routeStrip.map((patch) => [patch.name, patch.seenRgb]));
    expect(Math.max(...seen.K!)).toBeLessThan(100);
    expect(seen.R![0] - seen.R![1]).toBeGreaterThan(120);
    expect(seen.B![2] - seen.B![0]).toBeGreaterThan(120);
    expect(seen['grey-light']![0]).toBeGreaterThan(seen['grey-dark']![0] + 40);
  });

  it('each corner may be cut off, the first too', async () => {
    const flat = await toFile(scan(printed, { ppi: 200, seed: 2 }), { format: 'png', ppi: 200 });
    for (const corner of [0, 1, 2, 3]) {
      const cutAway = await sharp(flat)
        .metadata()
        .then(({ width, height }) =>
          sharp(flat)
            .composite([
              {
                input: { create: { width: 120, height: 100, channels: 3, background: '#e8e8e8' } },
                left: corner % 2 === 0 ? 0 : width - 120,
                top: corner < 2 ? 0 : height - 100,
              },
            ])
            .withMetadata({ density: 200 })
            .png()
            .toBuffer(),
        );
      const reading = await readSheetPicture(cutAway, paper);
      expect(reading.mirroring).toBe('right');
      expect(reading.markersFound).toBe(3);
      expect(reading.sheetId).toBe(sheetId);
      expect(reading.scale).toBe('right');
    }
  });

  it('half a sheet still tells what it can', async () => {
    // The right half of a mirrored sheet holds its top left marker and the code.
    const half = await cutOut(good, (width, height) => ({
      left: width >> 1,
      top: 0,
      width: width >> 1,
      height,
    }));
    expect(await readSheetPicture(half, paper)).toMatchObject({ sheetId, mirroring: 'right' });
  });

  it('the code alone tells the sheet and its handedness, either way round', async () => {
    for (const mirrors of [false, true]) {
      const picture = scan(drive(printed, { mirrors }), { ppi: 300, seed: 9 });
      const { width, height } = picture;
      const { xMm, widthMm } = frame.frame.qr;
      // The sheet stands 4 mm into the scan; written mirrored, so the code lies from the right unless mirrored again.
      const from = Math.round(((4 + (mirrors ? xMm : 118 - xMm - widthMm) - 1.6) * 300) / 25.4);
      const code = await sharp(await toFile(picture, { format: 'png' }))
        .extract({ left: from, top: 0, width: Math.min(width - from, 156), height: height >> 2 })
        .png()
        .toBuffer();
      const reading = await readSheetPicture(code, paper);
      expect(reading).toMatchObject({ sheetId, fileMirrored: true, seenMirrored: !mirrors, markersFound: 0 });
      expect(reading.mirroring).toBe(mirrors ? 'mirrored-twice' : 'right');
    }
  });

  it('two sheets in one scan are not mixed up', async () => {
    const [a, b] = await Promise.all(
      [printed, other].map((picture) =>
        toFile(scan(picture, { ppi: 150, seed: 3 }), { format: 'png', ppi: 150 }),
      ),
    );
    const both = await sharp({ create: { width: 760, height: 1130, channels: 3, background: '#ddd' } })
      .composite([
        { input: a!, left: 0, top: 0 },
        { input: b!, left: 0, top: 560 },
      ])
      .png()
      .toBuffer();
    await expect(readSheetPicture(both, paper)).rejects.toMatchObject({
      code: 'scan.no-marks',
      message: expect.stringContaining('more than one sheet'),
    });
  });

  it.each(frameVariants)('the marks “%s” are found', async (variant) => {
    const upright = variant.endsWith('sides') || variant === 'left-only';
    const size = upright ? { widthMm: 90, heightMm: 120 } : { widthMm: 120, heightMm: 90 };
    const sheet = await writeSheet(21, { ...size, ppi: 254, mirror: false, variant });
    const route: Pick<Route, 'driverMirrors'> = { driverMirrors: true };
    const seen = scan(ink(drive(sheet.picture, { mirrors: route.driverMirrors })), {
      ppi: 200,
      turnDegrees: 91,
      seed: 4,
    });
    const reading = await readSheetPicture(
      await toFile(seen, { format: 'jpeg', quality: 80, ppi: 200 }),
      paper,
    );
    expect(reading).toMatchObject({
      sheetId: sheet.sheetId,
      fileMirrored: false,
      mirroring: 'right',
      scale: 'right',
    });
    expect(reading.routeStrip).toHaveLength(12);
  });
});

describe('what the picture’s file says of itself', () => {
  it('EXIF orientation is followed, a mirroring one too, and said', async () => {
    for (const orientation of [1, 2, 3, 4, 5, 6, 7, 8]) {
      // Store the pixels so that following the tag gives the scan again (EXIF 2.32, 4.6.4 A).
      let stored = sharp(good).removeAlpha();
      if (orientation === 2) stored = stored.flop();
      if (orientation === 3) stored = stored.rotate(180);
      if (orientation === 4) stored = stored.flip();
      if (orientation === 5) stored = sharp(await stored.rotate(90).png().toBuffer()).flop();
      if (orientation === 6) stored = stored.rotate(270);
      if (orientation === 7) stored = sharp(await stored.rotate(270).png().toBuffer()).flop();
      if (orientation === 8) stored = stored.rotate(90);
      const file = await sharp(await stored.png().toBuffer())
        .withMetadata({ orientation, density: 200 })
        .jpeg({ quality: 90 })
        .toBuffer();
      const reading = await readSheetPicture(file, paper);
      expect([orientation, reading.mirroring, reading.scale]).toEqual([orientation, 'right', 'right']);
      expect(reading.sentences.some((sentence) => sentence.includes('stored mirrored'))).toBe(
        [2, 4, 5, 7].includes(orientation),
      );
    }
  });

  it('16-bit, grey, see-through and CMYK scans are read alike', async () => {
    const tagged = () => sharp(good).withMetadata({ density: 200 });
    const files = {
      sixteen: await tagged().toColourspace('rgb16').png().toBuffer(),
      grey: await tagged().toColourspace('b-w').png().toBuffer(),
      alpha: await tagged().ensureAlpha().png().toBuffer(),
      cmyk: await tagged().toColourspace('cmyk').jpeg({ quality: 95 }).toBuffer(),
    };
    const whole = await readSheetPicture(good, paper);
    for (const [kind, file] of Object.entries(files)) {
      const reading = await readSheetPicture(file, paper);
      expect([kind, reading.sheetId, reading.mirroring, reading.scale]).toEqual([
        kind,
        sheetId,
        'right',
        'right',
      ]);
      const [seen, wanted] = [reading, whole].map(
        (one) => one.routeStrip.find(({ name }) => name === 'grey-mid')!.seenRgb,
      );
      // CMYK goes through a general profile and back, so only roughly.
      seen!.forEach((value, c) => {
        expect(Math.abs(value - wanted![c]!)).toBeLessThanOrEqual(kind === 'cmyk' ? 30 : 3);
      });
    }
  });

  it('a screen’s density or none gives no size; the person’s own figure does', async () => {
    const bare = await sharp(good).jpeg({ quality: 90 }).toBuffer();
    expect((await readSheetPicture(bare, paper)).scale).toBe('unknown');
    const screen = await sharp(good).withMetadata({ density: 72 }).jpeg({ quality: 90 }).toBuffer();
    const reading = await readSheetPicture(screen, paper);
    expect(reading.scalePercent).toBeNull();
    expect(reading.sentences.join(' ')).toMatch(/screen resolution/);
    expect((await readSheetPicture(screen, { ...paper, scanPpi: 200 })).scale).toBe('right');
  });

  it('a camera’s tags make it a photograph, whatever density it claims', async () => {
    const photo = photograph(printed, { widthPixels: 1300, heightPixels: 1000, tilt: 8, pan: 5, seed: 6 });
    const reading = await readSheetPicture(
      await toFile(photo, { format: 'jpeg', quality: 80, camera: true }),
      paper,
    );
    expect(reading).toMatchObject({ sheetId, mirroring: 'right', scale: 'unknown', scalePercent: null });
    expect(reading.sentences.join(' ')).toMatch(/photograph/);
    const claimed = await sharp(good)
      .withExif({ IFD2: { ExposureTime: '1/60', FNumber: '18/10' } })
      .withMetadata({ density: 300 })
      .jpeg()
      .toBuffer();
    expect((await readSheetPicture(claimed, paper)).scale).not.toBe('wrong');
  });
});

describe('pictures that tell nothing', () => {
  const refuse = async (source: string | Uint8Array, code: string, words: RegExp): Promise<void> => {
    await expect(readSheetPicture(source, paper)).rejects.toMatchObject({
      code,
      message: expect.stringMatching(words),
    });
  };

  it('a blank page, noise, and a page of look-alikes', async () => {
    await refuse(
      await toFile(blank(600, 800, 100, [0.9, 0.9, 0.9]), { format: 'png' }),
      'scan.no-marks',
      /No sheet marks/,
    );
    const noise = blank(600, 800, 100);
    for (let i = 0; i < noise.data.length; i += 1) noise.data[i] = (((i * 2654435761) >>> 8) % 1000) / 1000;
    await refuse(await toFile(noise, { format: 'png' }), 'scan.no-marks', /marks/);
    // Only the artwork, full of things like markers.
    const { liveArea } = frame;
    const artwork = await sharp(await toFile(printed, { format: 'png' }))
      .extract({
        left: Math.round((118 - liveArea.xMm - liveArea.widthMm) * perMm),
        top: Math.round(liveArea.yMm * perMm),
        width: Math.floor(liveArea.widthMm * perMm),
        height: Math.floor(liveArea.heightMm * perMm),
      })
      .png()
      .toBuffer();
    await refuse(artwork, 'scan.no-marks', /marks/);
  });

  it('what is no picture, broken, cut short, empty, missing or too large', async () => {
    await refuse(Buffer.from('Dear club, the pennants are ready.'), 'image.wrong-type', /not a picture/);
    await refuse(new Uint8Array(0), 'image.wrong-type', /not a picture/);
    await refuse(good.subarray(0, good.length >> 1), 'image.unreadable', /cut short/);
    await refuse(path.join(folder, 'nowhere.png'), 'file.missing', /not where/);
    await refuse(
      Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>'),
      'image.wrong-type',
      /SVG/,
    );
    await expect(readSheetPicture(good, { ...paper, pixelLimit: 1000 })).rejects.toMatchObject({
      code: 'image.too-large',
    });
  });

  it('stops when asked to', async () => {
    await expect(readSheetPicture(good, { ...paper, signal: AbortSignal.abort() })).rejects.toMatchObject({
      code: 'job.cancelled',
    });
    const stopping = new AbortController();
    const reading = readSheetPicture(good, { ...paper, signal: stopping.signal });
    setTimeout(() => stopping.abort(), 5);
    await expect(reading).rejects.toMatchObject({ code: 'job.cancelled' });
    // And the next one is read as if nothing had been.
    expect((await readSheetPicture(good, paper)).sheetId).toBe(sheetId);
  });
});
