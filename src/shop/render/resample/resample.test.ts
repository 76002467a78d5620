import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { genericCmykProfile } from '../artwork/generic-cmyk.js';
import { probeArtwork } from '../artwork/probe.js';
import type { PixelPiece } from '../geometry/pixel-sheet.js';
import { type HandTiff, noise, tiffByHand } from '../testing/tiff-by-hand.js';
import { resampleArtwork } from './resample.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'resample-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

const width = 13;
const height = 9;

async function through(
  picture: Buffer,
  turn = 0,
): Promise<{ samples: Uint8Array; bits: number; size: number[] }> {
  const artworkPath = path.join(folder, 'in.tif');
  await writeFile(artworkPath, picture);
  const artworkFacts = await probeArtwork(artworkPath);
  const sideways = turn === 90 || turn === 270;
  const [boxWidth, boxHeight] = sideways ? [height, width] : [width, height];
  const piece: PixelPiece = {
    box: { left: 0, top: 0, width: boxWidth!, height: boxHeight! },
    form: { kind: 'rectangle', cornerRadius: 0 },
    artwork: { width, height, centreX: boxWidth! / 2, centreY: boxHeight! / 2, rotationDegrees: turn },
    leftForRight: false,
  };
  const artwork = await resampleArtwork({ artworkPath, artworkFacts, tempFolder: folder }, [piece]);
  const raster = artwork.byPiece[0]!;
  const file = await readFile(raster.path);
  const samples = new Uint8Array(file.subarray(raster.dataOffset));
  const channels = raster.colourChannels + (raster.hasAlpha ? 1 : 0);
  await artwork.remove();
  return {
    samples: samples.subarray(0, raster.width * raster.height * channels * (raster.bits / 8)),
    bits: raster.bits,
    size: [raster.width, raster.height],
  };
}

const make = (
  channels: number,
  photometric: HandTiff['photometric'],
  bits: 8 | 16,
  more: Partial<HandTiff> = {},
): HandTiff => {
  const length = width * height * channels;
  const samples = noise(bits === 8 ? new Uint8Array(length) : new Uint16Array(length), channels * 100 + bits);
  if (more.alpha) {
    for (let at = channels - 1; at < length; at += channels) samples[at] = bits === 8 ? 255 : 65535;
  }
  return { width, height, samples, channels, photometric, ...more };
};

const bytesOf = ({ samples }: HandTiff) =>
  new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength);

describe('numbers of the artwork', () => {
  const cases: [string, () => Promise<HandTiff> | HandTiff][] = [
    ['RGB 8', () => make(3, 2, 8)],
    ['RGB 16', () => make(3, 2, 16)],
    ['grey 8', () => make(1, 1, 8)],
    ['grey 16', () => make(1, 1, 16)],
    ['grey 8 with alpha', () => make(2, 1, 8, { alpha: true })],
    ['RGB 16 with alpha', () => make(4, 2, 16, { alpha: true })],
    ['CMYK 8', () => make(4, 5, 8)],
    ['CMYK 16', () => make(4, 5, 16)],
    ['CMYK 8 with alpha', () => make(5, 5, 8, { alpha: true })],
    ['CMYK 8, tagged', async () => make(4, 5, 8, { icc: await genericCmykProfile() })],
    [
      'RGB 8, tagged Display P3',
      async () => {
        const tagged = await sharp({ create: { width: 8, height: 8, channels: 3, background: '#fff' } })
          .withIccProfile('p3')
          .png()
          .toBuffer();
        return make(3, 2, 8, { icc: (await sharp(tagged).metadata()).icc! });
      },
    ],
  ];
  it.each(cases)('%s come through as they are', async (_name, picture) => {
    const given = await picture();
    const got = await through(tiffByHand(given));
    expect(got.bits).toBe(given.samples.BYTES_PER_ELEMENT * 8);
    expect(Buffer.from(got.samples).equals(Buffer.from(bytesOf(given)))).toBe(true);
  });

  it.each([90, 180, 270])('turn by %i° lands every pixel where it belongs', async (turn) => {
    const given = make(3, 2, 8);
    const got = await through(tiffByHand(given), turn);
    const [w] = got.size;
    for (let v = 0; v < height; v += 1) {
      for (let u = 0; u < width; u += 1) {
        const [x, y] =
          turn === 90
            ? [height - 1 - v, u]
            : turn === 180
              ? [width - 1 - u, height - 1 - v]
              : [v, width - 1 - u];
        const from = (v * width + u) * 3;
        const to = (y! * w! + x!) * 3;
        expect(got.samples.slice(to, to + 3)).toEqual(given.samples.slice(from, from + 3));
      }
    }
  });

  it('leaves no file behind', async () => {
    await through(tiffByHand(make(3, 2, 8)), 90);
    expect((await readdir(folder)).filter((name) => name.startsWith('resampled'))).toEqual([]);
  });
});
