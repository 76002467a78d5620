import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { crc32, deflateSync } from 'node:zlib';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { noise, tiffByHand } from '../testing/tiff-by-hand.js';
import { pictureForScreen } from './picture-for-screen.js';
import { probeArtwork } from './probe.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'probe-'));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

async function probe(bytes: Buffer | string, maxPixels?: number) {
  const file = path.join(folder, 'picture.bin');
  await writeFile(file, bytes);
  return probeArtwork(file, maxPixels === undefined ? {} : { maxPixels });
}

const plain = (width: number, height: number) =>
  sharp(noise(new Uint8Array(width * height * 3), 7), { raw: { width, height, channels: 3 } });

describe('probeArtwork', () => {
  it('goes by content, not by name', async () => {
    expect((await probe(await plain(20, 10).png().toBuffer())).format).toBe('png');
    expect((await probe(await plain(20, 10).jpeg().toBuffer())).format).toBe('jpeg');
    expect((await probe(await plain(20, 10).webp().toBuffer())).format).toBe('webp');
    expect((await probe(await plain(20, 10).gif().toBuffer())).format).toBe('gif');
    expect((await probe(await plain(20, 10).tiff().toBuffer())).format).toBe('tiff');
  });

  it('gives the size upright', async () => {
    // EXIF orientation 6: the top of the picture is stored at the right (Exif 2.32, tag 0x0112).
    const facts = await probe(await plain(40, 10).withMetadata({ orientation: 6 }).jpeg().toBuffer());
    expect([facts.widthPixels, facts.heightPixels]).toEqual([10, 40]);
  });

  it('says what untagged pixels are taken for', async () => {
    const rgb = await probe(await plain(20, 10).png().toBuffer());
    expect([rgb.icc, rgb.assumed]).toEqual([null, 'srgb']);
    expect(rgb.remarks.join()).toContain('sRGB');
    const cmyk = await probe(
      tiffByHand({ width: 4, height: 4, samples: noise(new Uint8Array(64), 1), channels: 4, photometric: 5 }),
    );
    expect([cmyk.colourModel, cmyk.assumed]).toEqual(['cmyk', 'generic-cmyk']);
    const grey = await probe(
      tiffByHand({
        width: 4,
        height: 4,
        samples: noise(new Uint16Array(16), 1),
        channels: 1,
        photometric: 1,
      }),
    );
    expect([grey.colourModel, grey.bitsPerSample, grey.assumed]).toEqual(['grey', 16, 'grey-srgb']);
  });

  it('takes a sound embedded profile and leaves a broken one', async () => {
    const tagged = await plain(20, 10).withIccProfile('p3').png().toBuffer();
    const facts = await probe(tagged);
    expect(facts.icc?.length).toBe((await sharp(tagged).metadata()).icc!.length);
    expect(facts.assumed).toBeNull();

    const icc = Uint8Array.from((await sharp(tagged).metadata()).icc!);
    icc.fill(0xee, 128, 200);
    const broken = tiffByHand({
      width: 4,
      height: 4,
      samples: noise(new Uint8Array(48), 1),
      channels: 3,
      photometric: 2,
      icc,
    });
    const judged = await probe(broken);
    expect([judged.icc, judged.assumed]).toEqual([null, 'srgb']);
    expect(judged.remarks.join()).toContain('broken');
  });

  it('measures how much is see-through', async () => {
    const half = await sharp({ create: { width: 100, height: 100, channels: 4, background: '#ff0000ff' } })
      .composite([
        {
          input: { create: { width: 50, height: 100, channels: 4, background: '#000' } },
          left: 0,
          top: 0,
          blend: 'dest-out',
        },
      ])
      .png()
      .toBuffer();
    const facts = await probe(half);
    expect(facts.hasAlpha).toBe(true);
    expect(facts.transparentShare).toBeCloseTo(0.5, 2);
    expect(facts.remarks.join()).toContain('no white ink');
  });

  it('says what a PNG says of its colours and is not followed in', async () => {
    const png = await plain(20, 10).png().toBuffer();
    const said = async (...chunks: [name: string, data: Buffer][]) => {
      const extra = chunks.map(([name, data]) => pngChunk(name, data));
      return (await probe(Buffer.concat([png.subarray(0, 33), ...extra, png.subarray(33)]))).remarks.join(
        ' ',
      );
    };
    const profile = (bytes: Buffer) => Buffer.concat([Buffer.from('p\0\0', 'latin1'), deflateSync(bytes)]);
    expect(await said(['iCCP', profile(Buffer.from('no profile at all'))])).toContain('broken');
    // ITU-T H.273: 12 is Display P3's primaries, 1 those of sRGB; 13 its transfer.
    expect(await said(['cICP', Buffer.from([12, 13, 0, 1])])).toContain('cICP');
    expect(await said(['cICP', Buffer.from([1, 13, 0, 1])])).not.toContain('cICP');
    const gamma = (value: number) => Buffer.from([0, value >> 16, (value >> 8) & 255, value & 255]);
    expect(await said(['gAMA', gamma(100_000)])).toContain('gamma');
    expect(await said(['gAMA', gamma(45_455)])).not.toContain('gamma');
    expect(await said()).not.toMatch(/gamma|cICP|broken/);
  });

  it('speaks of see-through parts only where there are some', async () => {
    const solid = await probe(await plain(20, 10).ensureAlpha().png().toBuffer());
    expect([solid.hasAlpha, solid.transparentShare]).toEqual([true, 0]);
    expect(solid.remarks.join()).not.toContain('See-through');
  });

  it('reads a drawing in UTF-16 as well', async () => {
    const text =
      '<?xml version="1.0" encoding="UTF-16"?><svg xmlns="http://www.w3.org/2000/svg" width="10" height="5"/>';
    const little = Buffer.from(`\uFEFF${text}`, 'utf16le');
    for (const bytes of [little, Buffer.from(little).swap16()]) {
      expect((await probe(bytes)).format).toBe('svg');
    }
  });

  it('takes a drawing as a drawing, and lets it fetch nothing', async () => {
    await plain(10, 10).png().toFile(path.join(folder, 'beside.png'));
    const svg = (inner: string) =>
      `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="50"><rect width="100" height="50" fill="#fff"/>${inner}</svg>`;
    const outside = path.join(folder, 'beside.png');
    const references = ['beside.png', outside, `file://${outside}`]
      .map((href) => `<image href="${href}" width="100" height="50"/>`)
      .join('');
    const facts = await probe(svg(`${references}<text y="-50">a</text>`));
    expect([facts.vector, facts.widthPixels, facts.heightPixels]).toEqual([true, 8000, 4000]);
    expect(facts.remarks.join()).toContain('outlines');
    const { bytes } = await pictureForScreen(path.join(folder, 'picture.bin'), 100);
    const { data } = await sharp(bytes).removeAlpha().raw().toBuffer({ resolveWithObject: true });
    // Only the drawing's own white: the picture beside it was not read.
    expect(data.every((value) => value === 255)).toBe(true);
  });
});

describe('bad files', () => {
  const refused = (bytes: Buffer | string, maxPixels?: number) =>
    probe(bytes, maxPixels).then(
      () => 'taken',
      (problem: { code?: string }) => problem.code,
    );

  it('are refused in words, each for what it is', async () => {
    const jpeg = await plain(400, 400).jpeg().toBuffer();
    const png = await plain(400, 400).png().toBuffer();
    expect(await refused('')).toBe('image.unreadable');
    expect(await refused('just some words')).toBe('image.wrong-type');
    expect(await refused('%PDF-1.7\n…')).toBe('image.wrong-type');
    expect(await refused(jpeg.subarray(0, jpeg.length / 2))).toBe('image.unreadable');
    expect(await refused(png.subarray(0, png.length / 2))).toBe('image.unreadable');
    expect(await refused(Buffer.concat([png.subarray(0, 24), noise(Buffer.alloc(500), 3)]))).toBe(
      'image.unreadable',
    );
    expect(await refused('<svg xmlns="http://www.w3.org/2000/svg"><rect</svg>')).toBe('image.unreadable');
    expect(await refused(png, 1000)).toBe('image.too-large');
    const drawing = (size: string) => `<svg xmlns="http://www.w3.org/2000/svg" ${size}/>`;
    expect(await refused(drawing('width="0" height="0"'))).toBe('image.unreadable');
    expect(await refused(drawing('width="1000000000" height="1000000000"'))).toBe('image.unreadable');
    const laughs = Array.from({ length: 9 }, (_, n) => `<!ENTITY e${n + 1} "${`&e${n};`.repeat(10)}">`).join(
      '',
    );
    expect(
      await refused(
        `<?xml version="1.0"?><!DOCTYPE svg [<!ENTITY e0 "ha">${laughs}]><svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><text>&e9;</text></svg>`,
      ),
    ).toBe('image.unreadable');
    await expect(probeArtwork(path.join(folder, 'nowhere.png'))).rejects.toMatchObject({
      code: 'file.missing',
    });
  });

  it('a channel that is neither colour nor transparency is refused, not taken for transparency', async () => {
    // TIFF 6.0, ExtraSamples: 0 unspecified, 1 associated, 2 unassociated alpha; the tag wanting is 0.
    const rgbAnd = (extra: number[], channels = 4) =>
      tiffByHand({
        width: 20,
        height: 20,
        samples: new Uint8Array(400 * channels).fill(128),
        channels,
        photometric: 2,
        extra,
      });
    for (const extra of [[], [0]]) {
      await expect(probe(rgbAnd(extra))).rejects.toMatchObject({
        code: 'image.wrong-type',
        message: expect.stringContaining('saved selection'),
      });
    }
    await expect(probe(rgbAnd([2, 0], 5))).rejects.toMatchObject({ code: 'image.wrong-type' });
    await expect(probe(rgbAnd([2, 0, 0], 6))).rejects.toMatchObject({ code: 'image.wrong-type' });
    for (const extra of [[1], [2]]) expect((await probe(rgbAnd(extra))).transparentShare).toBe(1);
    expect((await probe(rgbAnd([], 3))).hasAlpha).toBe(false);
  });

  it('a file that begins as what it is, and then is not, is called damaged and not a stranger', async () => {
    const tiff = await plain(100, 100).tiff({ compression: 'none' }).toBuffer();
    await expect(probe(tiff.subarray(0, tiff.length - 200))).rejects.toMatchObject({
      code: 'image.unreadable',
      message: expect.stringMatching(/^The file begins as a TIFF/),
    });
  });

  it('a small file that claims to be vast is refused by its claim', async () => {
    const head = Buffer.alloc(25);
    head.writeUInt32BE(13, 0);
    head.write('IHDR', 4, 'latin1');
    head.writeUInt32BE(60_000, 8);
    head.writeUInt32BE(60_000, 12);
    head.set([8, 2, 0, 0, 0], 16);
    head.writeUInt32BE(crc32(head.subarray(4, 21)), 21);
    const data = deflateSync(Buffer.alloc(1000));
    const idat = Buffer.alloc(12 + data.length);
    idat.writeUInt32BE(data.length, 0);
    idat.write('IDAT', 4, 'latin1');
    data.copy(idat, 8);
    idat.writeUInt32BE(crc32(idat.subarray(4, 8 + data.length)), 8 + data.length);
    const png = Buffer.concat([Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'), head, idat]);
    expect(await refused(png)).toBe('image.too-large');
  });
});

function pngChunk(name: string, data: Buffer): Buffer {
  const chunk = Buffer.alloc(12 + data.length);
  chunk.writeUInt32BE(data.length, 0);
  chunk.write(name, 4, 'latin1');
  data.copy(chunk, 8);
  chunk.writeUInt32BE(crc32(chunk.subarray(4, 8 + data.length)), 8 + data.length);
  return chunk;
}
