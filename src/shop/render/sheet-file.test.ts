import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SheetOutputOptions } from '#contract';
import type { DeviceLink } from '#craft/icc';
import type { SheetPlan } from '#craft/sheet';
import { probeArtwork } from './artwork/probe.js';
import { closeRenderWorkers } from './bands/pool.js';
import { renderPreview, samplePiece } from './preview.js';
import { makeSheetFile } from './sheet-file.js';
import { decode } from './testing/pixels.js';
import { identity, piece, plainLink, plan, tenPerMm } from './testing/plans.js';
import { noise, tiffByHand } from './testing/tiff-by-hand.js';

let folder: string;
let artworkPath: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'sheets-'));
  artworkPath = path.join(folder, 'artwork.bin');
});
afterAll(async () => {
  await closeRenderWorkers();
  await rm(folder, { recursive: true, force: true });
});

interface Making {
  readonly artwork: Buffer;
  readonly plan: SheetPlan;
  readonly ppi?: number;
  readonly link?: DeviceLink;
  readonly output?: Partial<SheetOutputOptions>;
  readonly workers?: number;
}

async function make({
  artwork,
  plan: sheet,
  ppi = tenPerMm,
  link = identity,
  output = {},
  workers = 2,
}: Making) {
  await writeFile(artworkPath, artwork);
  const full = { format: 'png', bitsPerSample: 8, colourTag: 'device', ...output } as const;
  const outPath = path.join(folder, `out.${full.format}`);
  const artworkFacts = await probeArtwork(artworkPath);
  await makeSheetFile({
    plan: sheet,
    ppi,
    artworkPath,
    artworkFacts,
    link,
    output: full,
    outPath,
    tempFolder: folder,
    workers,
  });
  return outPath;
}

const flat = (colour: string, alpha = false) =>
  sharp({ create: { width: 40, height: 40, channels: alpha ? 4 : 3, background: colour } })
    .png()
    .toBuffer();

/** Noise that is exactly as large as the piece it is for, so that resampling changes nothing. */
const noisePicture = (width: number, height: number, seed = 3) => {
  const samples = noise(new Uint8Array(width * height * 3), seed);
  return { samples, file: tiffByHand({ width, height, samples, channels: 3, photometric: 2 }) };
};

const white = [255, 255, 255];

describe('place and size', () => {
  it('every edge of the printed box is on its pixel, paper beyond it', async () => {
    const trim = { xMm: 3, yMm: 5, widthMm: 20, heightMm: 12 };
    const file = await make({
      artwork: await flat('#204060'),
      plan: plan(40, 30, [piece(trim, { bleedMm: 1 })]),
    });
    const sheet = await decode(file);
    expect([sheet.width, sheet.height]).toEqual([400, 300]);
    const ink = [0x20, 0x40, 0x60];
    for (let y = 0; y < 300; y += 1) {
      for (let x = 0; x < 400; x += 1) {
        const inside = x >= 20 && x < 240 && y >= 40 && y < 180;
        if (sheet.at(x, y)[0] !== (inside ? ink[0] : 255)) throw new Error(`wrong at ${x}, ${y}`);
      }
    }
    expect(sheet.at(20, 40)).toEqual(ink);
    expect(sheet.at(239, 179)).toEqual(ink);
  });

  it('clips to an ellipse: its area is πab within what pixels can show', async () => {
    const trim = { xMm: 2, yMm: 2, widthMm: 30, heightMm: 20 };
    const file = await make({
      artwork: await flat('#000000'),
      plan: plan(34, 24, [piece(trim, { trimForm: 'ellipse' })]),
    });
    const sheet = await decode(file);
    let ink = 0;
    for (let at = 0; at < sheet.samples.length; at += 3) ink += sheet.samples[at] === 0 ? 1 : 0;
    const exact = Math.PI * 150 * 100;
    // Whole pixels along the rim: the error of a lattice count is far below the perimeter (about 793 px).
    expect(Math.abs(ink - exact)).toBeLessThan(150);
  });

  it('rounds corners by a parallel curve: the area lost is (4 − π)r²', async () => {
    const trim = { xMm: 5, yMm: 5, widthMm: 30, heightMm: 20 };
    const rounded = piece(trim, { trimCornerRadiusMm: 4, bleedMm: 1 });
    const sheet = await decode(await make({ artwork: await flat('#000000'), plan: plan(40, 30, [rounded]) }));
    let ink = 0;
    for (let at = 0; at < sheet.samples.length; at += 3) ink += sheet.samples[at] === 0 ? 1 : 0;
    expect(Math.abs(ink - (320 * 220 - (4 - Math.PI) * 50 * 50))).toBeLessThan(30);
  });

  it('turns artwork clockwise as seen reading the right way, true to a pixel', async () => {
    // A single dark square off centre, on light ground; turned by 30° its centre must land where geometry says.
    const dot = await sharp({ create: { width: 200, height: 100, channels: 3, background: '#e0e0e0' } })
      .composite([
        { input: { create: { width: 10, height: 10, channels: 3, background: '#000' } }, left: 165, top: 45 },
      ])
      .png()
      .toBuffer();
    const trim = { xMm: 1, yMm: 1, widthMm: 28, heightMm: 28 };
    const turned = piece(trim, {
      artwork: { widthMm: 20, heightMm: 10, centreXMm: 0, centreYMm: 0, rotationDegrees: 30 },
    });
    const sheet = await decode(await make({ artwork: dot, plan: plan(30, 30, [turned]) }));
    let [mass, sumX, sumY] = [0, 0, 0];
    for (let y = 0; y < 300; y += 1) {
      for (let x = 0; x < 300; x += 1) {
        const value = sheet.at(x, y)[0]!;
        if (value > 100) continue;
        mass += 1;
        sumX += x + 0.5;
        sumY += y + 0.5;
      }
    }
    // The dot's centre is 70 px right of the artwork's centre; the artwork's centre is at 150, 150.
    expect(mass).toBeGreaterThan(60);
    expect(Math.abs(sumX / mass - (150 + 70 * Math.cos(Math.PI / 6)))).toBeLessThan(1);
    expect(Math.abs(sumY / mass - (150 + 70 * Math.sin(Math.PI / 6)))).toBeLessThan(1);
    // The turned rectangle has area 200 × 100; beyond it there is paper.
    let covered = 0;
    for (let at = 0; at < sheet.samples.length; at += 3) covered += sheet.samples[at]! < 240 ? 1 : 0;
    expect(Math.abs(covered - 20_000)).toBeLessThan(320);
  });

  it('copies share one picture and come out alike', async () => {
    const { file } = noisePicture(100, 80);
    const at = (xMm: number, index: number) => piece({ xMm, yMm: 1.23, widthMm: 10, heightMm: 8 }, { index });
    const sheet = await decode(
      await make({ artwork: file, plan: plan(30, 10, [at(1.06, 0), at(15.44, 1)]) }),
    );
    for (let y = 12; y < 92; y += 7) {
      for (let x = 0; x < 100; x += 9) expect(sheet.at(11 + x, y)).toEqual(sheet.at(154 + x, y));
    }
  });
});

describe('mirrored once', () => {
  it('every row is reversed, marks and all, and nothing else changes', async () => {
    const { file } = noisePicture(200, 100);
    const marks = [
      {
        kind: 'fill',
        rect: { xMm: 0.5, yMm: 0.5, widthMm: 3, heightMm: 1 },
        rgb: [255, 0, 128],
        role: 'route-strip',
      },
      {
        kind: 'text',
        xMm: 5,
        yMm: 3,
        capHeightMm: 2,
        maxWidthMm: 20,
        text: 'Reads',
        role: 'reads-backwards',
      },
      {
        kind: 'cells',
        rect: { xMm: 26, yMm: 1, widthMm: 2, heightMm: 2 },
        columns: 2,
        rows: 2,
        cells: [true, false, false, false],
        role: 'corner',
      },
    ] as const;
    const pieces = [piece({ xMm: 2, yMm: 5, widthMm: 20, heightMm: 10 })];
    const right = await decode(await make({ artwork: file, plan: plan(31, 18, pieces, { marks }) }));
    const mirrored = await decode(
      await make({ artwork: file, plan: plan(31, 18, pieces, { marks, mirror: true }) }),
    );
    for (let y = 0; y < right.height; y += 1) {
      for (let x = 0; x < right.width; x += 1) {
        const one = right.at(x, y);
        const other = mirrored.at(right.width - 1 - x, y);
        if (one.join() !== other.join()) throw new Error(`not mirrored at ${x}, ${y}`);
      }
    }
    expect(right.at(6, 6)).toEqual([255, 0, 128]);
    expect(right.at(265, 15)).toEqual([0, 0, 0]);
    expect(right.at(275, 15)).toEqual(white);
    expect(Buffer.from(right.samples).equals(Buffer.from(mirrored.samples))).toBe(false);
  });

  it('pixels of the artwork arrive untouched when it fits the grid', async () => {
    const { file, samples } = noisePicture(200, 100);
    const sheet = await decode(
      await make({
        artwork: file,
        plan: plan(31, 18, [piece({ xMm: 2, yMm: 5, widthMm: 20, heightMm: 10 })]),
      }),
    );
    for (let y = 0; y < 100; y += 1) {
      for (let x = 0; x < 200; x += 1) {
        const from = (y * 200 + x) * 3;
        expect(sheet.at(20 + x, 50 + y)).toEqual(Array.from(samples.subarray(from, from + 3)));
      }
    }
  });
});

describe('bands', () => {
  it('many bands on two threads equal the picture in one piece', async () => {
    // 2000 × 1500 px: several bands. The truth is the artwork itself.
    const { file, samples } = noisePicture(2000, 1500);
    const sheet = await decode(
      await make({
        artwork: file,
        plan: plan(200, 150, [piece({ xMm: 0, yMm: 0, widthMm: 200, heightMm: 150 })]),
      }),
    );
    expect(Buffer.from(sheet.samples).equals(Buffer.from(samples))).toBe(true);
  });
});

describe('kinds of artwork', () => {
  const whole = plan(10, 8, [piece({ xMm: 0, yMm: 0, widthMm: 10, heightMm: 8 })]);

  it('16 bit stays 16 bit, and is rounded rightly to 8', async () => {
    const samples = noise(new Uint16Array(100 * 80 * 3), 9);
    const artwork = tiffByHand({ width: 100, height: 80, samples, channels: 3, photometric: 2 });
    for (const format of ['png', 'tiff'] as const) {
      const deep = await decode(
        await make({ artwork, plan: whole, output: { format, bitsPerSample: 16 } }),
        16,
      );
      expect(Buffer.from(deep.samples.buffer).equals(Buffer.from(samples.buffer))).toBe(true);
    }
    const flatter = await decode(await make({ artwork, plan: whole, output: { format: 'tiff' } }));
    expect(flatter.samples.every((value, index) => value === Math.round(samples[index]! / 257))).toBe(true);
  });

  it('8-bit artwork on a 16-bit sheet is scaled by 257, so white stays white', async () => {
    const { file, samples } = noisePicture(100, 80);
    const sheet = await decode(await make({ artwork: file, plan: whole, output: { bitsPerSample: 16 } }), 16);
    expect(sheet.samples.every((value, index) => value === samples[index]! * 257)).toBe(true);
  });

  it('see-through parts show paper', async () => {
    const sheet = await decode(await make({ artwork: await flat('rgba(200,0,0,0.5)', true), plan: whole }));
    // 8-bit alpha of 0.5 is 128: 200·a + 255·(1 − a) and 255·(1 − a), a = 128/255.
    const [r, g, b] = sheet.at(50, 40);
    expect(Math.abs(r! - (200 * 128 + 255 * 127) / 255)).toBeLessThanOrEqual(0.51);
    expect(g).toBe(127);
    expect(b).toBe(127);
    const clear = await decode(await make({ artwork: await flat('rgba(200,0,0,0)', true), plan: whole }));
    expect(clear.samples.every((value) => value === 255)).toBe(true);
  });

  it('grey and CMYK go through links of their own channels', async () => {
    const grey = noise(new Uint8Array(100 * 80), 2);
    const greySheet = await decode(
      await make({
        artwork: tiffByHand({ width: 100, height: 80, samples: grey, channels: 1, photometric: 1 }),
        plan: whole,
        link: plainLink(1),
      }),
    );
    expect(greySheet.samples.every((value, index) => value === grey[Math.floor(index / 3)])).toBe(true);

    const cmyk = new Uint8Array(100 * 80 * 4);
    for (let pixel = 0; pixel < 8000; pixel += 1) cmyk[pixel * 4 + (pixel % 5)] = pixel % 5 === 4 ? 0 : 255;
    const inks = await decode(
      await make({
        artwork: tiffByHand({ width: 100, height: 80, samples: cmyk, channels: 4, photometric: 5 }),
        plan: whole,
        link: plainLink(4),
      }),
    );
    expect(inks.at(0, 0)).toEqual([0, 255, 255]);
    expect(inks.at(1, 0)).toEqual([255, 0, 255]);
    expect(inks.at(2, 0)).toEqual([255, 255, 0]);
    expect(inks.at(3, 0)).toEqual([0, 0, 0]);
  });

  it('a drawing is drawn at the sheet’s own resolution: its edges are sharp', async () => {
    const svg =
      '<svg xmlns="http://www.w3.org/2000/svg" width="10" height="8"><rect width="5" height="8"/><rect x="5" width="5" height="8" fill="#fff"/></svg>';
    const sheet = await decode(await make({ artwork: Buffer.from(svg), plan: whole }));
    expect(sheet.at(49, 40)).toEqual([0, 0, 0]);
    expect(sheet.at(50, 40)).toEqual(white);
  });

  it.each([1, 2, 3, 4, 5, 6, 7, 8])('stands upright by EXIF orientation %i', async (orientation) => {
    const [width, height] = orientation < 5 ? [100, 80] : [80, 100];
    const stored = await sharp(noisePicture(width!, height!).file)
      .withMetadata({ orientation })
      .tiff({ compression: 'none' })
      .toBuffer();
    const upright = await sharp(stored).autoOrient().raw().toBuffer();
    const sheet = await decode(await make({ artwork: stored, plan: whole }));
    expect(Buffer.from(sheet.samples).equals(upright)).toBe(true);
  });
});

describe('previews', () => {
  it('show exactly what is written, at the same resolution', async () => {
    const { file } = noisePicture(150, 90);
    const sheetPlan = plan(30, 20, [piece({ xMm: 3, yMm: 4, widthMm: 15, heightMm: 9 })], {
      mirror: true,
      marks: [{ kind: 'text', xMm: 3, yMm: 3, capHeightMm: 2, maxWidthMm: 20, text: 'Abc', role: 'label' }],
    });
    const written = await decode(await make({ artwork: file, plan: sheetPlan }));
    const artworkFacts = await probeArtwork(artworkPath);
    const source = { artworkPath, artworkFacts, link: identity, tempFolder: folder };
    const shown = await decode(
      await renderPreview({ ...source, plan: sheetPlan, view: { kind: 'paper' }, maxPixels: 300 }),
    );
    expect([shown.width, shown.height]).toEqual([300, 200]);
    expect(Buffer.from(shown.samples).equals(Buffer.from(written.samples))).toBe(true);
  });

  it('the pressed piece reads the right way, trimmed, turned back, through the proof', async () => {
    const { file } = noisePicture(100, 60);
    await writeFile(artworkPath, file);
    const artworkFacts = await probeArtwork(artworkPath);
    const source = { artworkPath, artworkFacts, link: identity, tempFolder: folder };
    // The piece lies turned by 90° on the sheet, and the artwork with it.
    const turned = piece(
      { xMm: 2, yMm: 2, widthMm: 6, heightMm: 10 },
      {
        turnedDegrees: 90,
        artwork: { widthMm: 10, heightMm: 6, centreXMm: 0, centreYMm: 0, rotationDegrees: 90 },
      },
    );
    const inverse: DeviceLink = {
      kind: 'grid',
      inputChannels: 3,
      gridPoints: 2,
      inputCurves: null,
      error8: { mean: 0, max: 0 },
      table: Uint16Array.from(
        Array.from({ length: 8 }, (_, i) => [i & 4, i & 2, i & 1].map((on) => (on ? 0 : 65535))).flat(),
      ),
    };
    const sheetPlan = plan(12, 14, [turned], { mirror: true });
    const view = { kind: 'pressed', proof: inverse } as const;
    const shown = await decode(await renderPreview({ ...source, plan: sheetPlan, view, maxPixels: 100 }));
    const artwork = await decode(file);
    expect([shown.width, shown.height]).toEqual([100, 60]);
    expect(
      shown.samples.every((value, index) => Math.abs(value - (255 - artwork.samples[index]!)) <= 1),
    ).toBe(true);
  });

  it('marks just the pixels beyond reach', async () => {
    const samples = new Uint8Array(100 * 60 * 3).fill(10);
    samples.fill(240, 0, (samples.length / 2) | 0);
    await writeFile(
      artworkPath,
      tiffByHand({ width: 100, height: 60, samples, channels: 3, photometric: 2 }),
    );
    const artworkFacts = await probeArtwork(artworkPath);
    const source = { artworkPath, artworkFacts, link: identity, tempFolder: folder };
    const sheetPlan = plan(14, 10, [piece({ xMm: 2, yMm: 2, widthMm: 10, heightMm: 6 })]);
    const reach = { thresholdDeltaE00: 3, deltaE00At: (c: Float64Array) => (c[0]! > 0.5 ? 9 : 0) };
    const shown = await decode(
      await renderPreview({ ...source, plan: sheetPlan, view: { kind: 'reach', reach }, maxPixels: 100 }),
    );
    const coloured = (x: number, y: number) => new Set(shown.at(x, y)).size > 1;
    expect([coloured(50, 10), coloured(50, 29), coloured(50, 31), coloured(50, 50)]).toEqual([
      true,
      true,
      false,
      false,
    ]);
    const sample = await samplePiece({ ...source, plan: sheetPlan, maxPixels: 100 });
    expect(Buffer.from(sample.source).equals(Buffer.from(samples))).toBe(true);
  });
});

describe('ends that are not the wanted one', () => {
  it('a cancel leaves nothing behind', async () => {
    await writeFile(artworkPath, noisePicture(2000, 1500).file);
    const artworkFacts = await probeArtwork(artworkPath);
    for (const stopAt of [0, 0.4, 0.6]) {
      const controller = new AbortController();
      const making = makeSheetFile({
        plan: plan(200, 150, [piece({ xMm: 0, yMm: 0, widthMm: 200, heightMm: 150 })]),
        ppi: tenPerMm,
        artworkPath,
        artworkFacts,
        link: identity,
        output: { format: 'png', bitsPerSample: 8, colourTag: 'device' },
        outPath: path.join(folder, 'stopped.png'),
        tempFolder: folder,
        signal: controller.signal,
        onProgress: ({ fraction }) => {
          if (fraction >= stopAt) controller.abort();
        },
      });
      await expect(making).rejects.toMatchObject({ code: 'job.cancelled' });
    }
    await expect
      .poll(() =>
        readdir(folder).then((names) => names.filter((name) => /stopped|resampled|part/.test(name))),
      )
      .toEqual([]);
  });

  it('damage found late leaves nothing behind and is said', async () => {
    await writeFile(artworkPath, await sharp(noisePicture(600, 400).file).jpeg().toBuffer());
    const artworkFacts = await probeArtwork(artworkPath);
    const bytes = await sharp(artworkPath).toBuffer();
    await writeFile(artworkPath, bytes.subarray(0, bytes.length / 2));
    const making = makeSheetFile({
      plan: plan(60, 40, [piece({ xMm: 0, yMm: 0, widthMm: 60, heightMm: 40 })]),
      ppi: tenPerMm,
      artworkPath,
      artworkFacts,
      link: identity,
      output: { format: 'pdf', bitsPerSample: 8, colourTag: 'device' },
      outPath: path.join(folder, 'damaged.pdf'),
      tempFolder: folder,
    });
    await expect(making).rejects.toMatchObject({ code: 'image.unreadable' });
    expect((await readdir(folder)).filter((name) => /damaged|resampled|part/.test(name))).toEqual([]);
  });

  it('a folder that cannot be written to is said in words', async () => {
    await writeFile(artworkPath, await flat('#fff'));
    const artworkFacts = await probeArtwork(artworkPath);
    const making = makeSheetFile({
      plan: plan(10, 10, [piece({ xMm: 0, yMm: 0, widthMm: 10, heightMm: 10 })]),
      ppi: tenPerMm,
      artworkPath,
      artworkFacts,
      link: identity,
      output: { format: 'png', bitsPerSample: 8, colourTag: 'tagged' },
      outPath: path.join(folder, 'tagged.png'),
      tempFolder: folder,
    });
    await expect(making).rejects.toMatchObject({ code: 'output.unsupported' });
  });
});
