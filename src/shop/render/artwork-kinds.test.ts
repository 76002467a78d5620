import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Bench, flat, noisePicture } from './testing/bench.js';
import { decode } from './testing/pixels.js';
import { piece, plainLink, plan } from './testing/plans.js';
import { noise, tiffByHand } from './testing/tiff-by-hand.js';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.open();
});
afterAll(() => bench.close());

const white = [255, 255, 255];

describe('kinds of artwork', () => {
  const whole = plan(10, 8, [piece({ xMm: 0, yMm: 0, widthMm: 10, heightMm: 8 })]);

  it('16 bit stays 16 bit, and is rounded rightly to 8', async () => {
    const samples = noise(new Uint16Array(100 * 80 * 3), 9);
    const artwork = tiffByHand({ width: 100, height: 80, samples, channels: 3, photometric: 2 });
    for (const format of ['png', 'tiff'] as const) {
      const deep = await decode(
        await bench.make({ artwork, plan: whole, output: { format, bitsPerSample: 16 } }),
        16,
      );
      expect(Buffer.from(deep.samples.buffer).equals(Buffer.from(samples.buffer))).toBe(true);
    }
    const flatter = await decode(await bench.make({ artwork, plan: whole, output: { format: 'tiff' } }));
    expect(flatter.samples.every((value, index) => value === Math.round(samples[index]! / 257))).toBe(true);
  });

  it('8-bit artwork on a 16-bit sheet is scaled by 257, so white stays white', async () => {
    const { file, samples } = noisePicture(100, 80);
    const sheet = await decode(
      await bench.make({ artwork: file, plan: whole, output: { bitsPerSample: 16 } }),
      16,
    );
    expect(sheet.samples.every((value, index) => value === samples[index]! * 257)).toBe(true);
  });

  it('see-through parts show paper', async () => {
    const sheet = await decode(
      await bench.make({ artwork: await flat('rgba(200,0,0,0.5)', true), plan: whole }),
    );
    // 8-bit alpha of 0.5 is 128: 200·a + 255·(1 − a) and 255·(1 − a), a = 128/255.
    const [r, g, b] = sheet.at(50, 40);
    expect(Math.abs(r! - (200 * 128 + 255 * 127) / 255)).toBeLessThanOrEqual(0.51);
    expect(g).toBe(127);
    expect(b).toBe(127);
    const clear = await decode(
      await bench.make({ artwork: await flat('rgba(200,0,0,0)', true), plan: whole }),
    );
    expect(clear.samples.every((value) => value === 255)).toBe(true);
  });

  it('grey and CMYK go through links of their own channels', async () => {
    const grey = noise(new Uint8Array(100 * 80), 2);
    const greySheet = await decode(
      await bench.make({
        artwork: tiffByHand({ width: 100, height: 80, samples: grey, channels: 1, photometric: 1 }),
        plan: whole,
        link: plainLink(1),
      }),
    );
    expect(greySheet.samples.every((value, index) => value === grey[Math.floor(index / 3)])).toBe(true);

    const cmyk = new Uint8Array(100 * 80 * 4);
    for (let pixel = 0; pixel < 8000; pixel += 1) cmyk[pixel * 4 + (pixel % 5)] = pixel % 5 === 4 ? 0 : 255;
    const inks = await decode(
      await bench.make({
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
    const sheet = await decode(await bench.make({ artwork: Buffer.from(svg), plan: whole }));
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
    const sheet = await decode(await bench.make({ artwork: stored, plan: whole }));
    expect(Buffer.from(sheet.samples).equals(upright)).toBe(true);
  });
});
