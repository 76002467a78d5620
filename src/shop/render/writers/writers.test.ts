import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SheetPlan } from '#craft/sheet';
import { genericCmykProfile } from '../artwork/generic-cmyk.js';
import { probeArtwork } from '../artwork/probe.js';
import { closeRenderWorkers } from '../bands/pool.js';
import { toPixelMarks } from '../geometry/mark-pixels.js';
import { toPixelSheet } from '../geometry/pixel-sheet.js';
import { makeSheetFile } from '../sheet-file.js';
import { decode } from '../testing/pixels.js';
import { identity, piece, plan, tenPerMm } from '../testing/plans.js';
import { noise, tiffByHand } from '../testing/tiff-by-hand.js';
import { writeImage } from '../write-image.js';
import { OutFile } from './out-file.js';
import { pdfBoxes } from './pdf-boxes.js';
import { PdfWriter } from './pdf-writer.js';
import type { SheetImage, SheetWriter } from './sheet-writer.js';
import { TiffWriter } from './tiff-writer.js';

let folder: string;
let artworkPath: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'writers-'));
  artworkPath = path.join(folder, 'artwork.tif');
  const samples = noise(new Uint8Array(300 * 200 * 3), 11);
  await writeFile(artworkPath, tiffByHand({ width: 300, height: 200, samples, channels: 3, photometric: 2 }));
});
afterAll(async () => {
  await closeRenderWorkers();
  await rm(folder, { recursive: true, force: true });
});

const sheetPlan = (mirror: boolean): SheetPlan =>
  plan(42, 30, [piece({ xMm: 3, yMm: 5, widthMm: 30, heightMm: 20 })], {
    mirror,
    marks: [
      {
        kind: 'fill',
        rect: { xMm: 1, yMm: 1, widthMm: 4, heightMm: 2 },
        rgb: [250, 20, 5],
        role: 'route-strip',
      },
    ],
  });

async function make(
  name: string,
  options: { mirror?: boolean; ppi?: number; icc?: Uint8Array; plan?: SheetPlan } = {},
) {
  const outPath = path.join(folder, name);
  await makeSheetFile({
    plan: options.plan ?? sheetPlan(options.mirror ?? true),
    ppi: options.ppi ?? tenPerMm,
    artworkPath,
    artworkFacts: await probeArtwork(artworkPath),
    link: identity,
    output: {
      format: name.endsWith('pdf') ? 'pdf' : name.endsWith('png') ? 'png' : 'tiff',
      bitsPerSample: 8,
      colourTag: options.icc ? 'tagged' : 'device',
    },
    ...(options.icc ? { iccBytes: options.icc } : {}),
    outPath,
    tempFolder: folder,
  });
  return outPath;
}

/** The same sheet through a writer with its limits set for the test. */
async function makeWith(name: string, writer: (file: OutFile, image: SheetImage) => SheetWriter) {
  const sheet = toPixelSheet(sheetPlan(true), tenPerMm);
  const image = {
    width: sheet.width,
    height: sheet.height,
    ppi: tenPerMm,
    bits: 8,
    iccBytes: null,
    title: 'Sheet',
  } as const;
  await writeImage(
    {
      artworkPath,
      artworkFacts: await probeArtwork(artworkPath),
      link: identity,
      tempFolder: folder,
      sheet,
      marks: () => toPixelMarks(sheetPlan(true), tenPerMm),
      outPath: path.join(folder, name),
      options: { mirror: true, outBits: 8, workers: 2 },
    },
    (file) => writer(file, image),
  );
  return path.join(folder, name);
}

const has = (program: string) => spawnSync(program, ['--version']).error === undefined;
const pt = (mm: number) => (mm * 72) / 25.4;

describe('PDF', () => {
  it('read by pdf.js: the page is the sheet to a thousandth of a point, the image at its true pitch', async () => {
    const data = new Uint8Array(await readFile(await make('boxes.pdf')));
    const document = await getDocument({ data, verbosity: 0 }).promise;
    expect(document.numPages).toBe(1);
    const page = await document.getPage(1);
    const [left, bottom, right, top] = page.view;
    expect([left, bottom]).toEqual([0, 0]);
    expect(right).toBeCloseTo(pt(42), 3);
    expect(top).toBeCloseTo(pt(30), 3);
    const operators = await page.getOperatorList();
    const images = operators.fnArray.filter((fn) => fn === OPS.paintImageXObject);
    expect(images.length).toBe(1);
    const image = operators.argsArray[operators.fnArray.indexOf(OPS.paintImageXObject)] as [
      string,
      number,
      number,
    ];
    expect(image.slice(1, 3)).toEqual([420, 300]);
    const matrix = operators.argsArray[operators.fnArray.indexOf(OPS.transform)] as number[];
    const [a, b, c, d, e, f] = Array.from(matrix.length === 6 ? matrix : (matrix[0] as unknown as number[]));
    expect([a, b, c, d, e, f].map((v) => Math.round(v! * 1000) / 1000)).toEqual(
      [(420 * 72) / 254, 0, 0, (300 * 72) / 254, 0, 0].map((v) => Math.round(v * 1000) / 1000),
    );
    await document.destroy();
  });

  it('trim and bleed boxes are where the pieces are once mirrored', () => {
    const several = plan(100, 50, [piece({ xMm: 10, yMm: 5, widthMm: 20, heightMm: 30 }, { bleedMm: 2 })], {
      mirror: true,
    });
    const { media, trim, bleed } = pdfBoxes(several);
    const mm = (box: readonly number[]) => box.map((value) => Math.round((value / pt(1)) * 1e6) / 1e6);
    expect(mm(media)).toEqual([0, 0, 100, 50]);
    expect(mm(trim)).toEqual([70, 15, 90, 45]);
    expect(mm(bleed)).toEqual([68, 13, 92, 47]);
    expect(mm(pdfBoxes({ ...several, mirrorOnWriting: false }).trim)).toEqual([10, 15, 30, 45]);
  });

  it.skipIf(!has('qpdf'))('is sound to qpdf, whole, in strips and tagged', async () => {
    const srgb = (await sharp(await sharp(artworkPath).withIccProfile('srgb').png().toBuffer()).metadata())
      .icc!;
    const strips = await makeWith(
      'strips-check.pdf',
      (file, image) =>
        new PdfWriter(file, image, pdfBoxes(sheetPlan(true)), {
          mostPixelsInOneImage: 1000,
          pixelsInOneStrip: 420 * 70,
        }),
    );
    for (const file of [await make('plain.pdf'), await make('tagged.pdf', { icc: srgb }), strips]) {
      expect(execFileSync('qpdf', ['--check', file], { encoding: 'utf8' })).toContain(
        'No syntax or stream encoding errors',
      );
    }
    expect(
      execFileSync('qpdf', ['--show-object=1', path.join(folder, 'tagged.pdf')], { encoding: 'utf8' }),
    ).toContain('/N 3');
  });

  it.skipIf(!has('pdftoppm'))(
    'drawn by poppler at the sheet’s resolution gives the sheet’s pixels, in strips too',
    async () => {
      const truth = await decode(await make('truth.png'));
      const strips = await makeWith(
        'strips.pdf',
        (file, image) =>
          new PdfWriter(file, image, pdfBoxes(sheetPlan(true)), {
            mostPixelsInOneImage: 1000,
            pixelsInOneStrip: 420 * 70,
          }),
      );
      for (const file of [await make('drawn.pdf'), strips]) {
        const out = path.join(folder, path.basename(file, '.pdf'));
        execFileSync('pdftoppm', ['-r', String(tenPerMm), '-png', '-singlefile', file, out]);
        const drawn = await decode(`${out}.png`);
        expect([drawn.width, drawn.height]).toEqual([420, 300]);
        expect(Buffer.from(drawn.samples).equals(Buffer.from(truth.samples))).toBe(true);
      }
    },
  );

  it.skipIf(!has('pdftoppm'))(
    'pixel falls on pixel on pages that are no whole number of pixels',
    async () => {
      for (const [widthMm, heightMm] of [
        [31.3, 20.7],
        [29.7, 42],
        [30.52, 21.6],
      ] as const) {
        const odd = plan(widthMm, heightMm, [piece({ xMm: 1, yMm: 1, widthMm: 25, heightMm: 18 })], {
          mirror: true,
        });
        const truth = await decode(await make('odd.png', { plan: odd, ppi: 300 }));
        const file = await make('odd.pdf', { plan: odd, ppi: 300 });
        execFileSync('pdftoppm', ['-r', '300', '-png', '-singlefile', file, path.join(folder, 'odd-drawn')]);
        const drawn = await decode(path.join(folder, 'odd-drawn.png'));
        for (let y = 0; y < Math.min(truth.height, drawn.height); y += 3) {
          for (let x = 0; x < Math.min(truth.width, drawn.width); x += 1) {
            if (drawn.at(x, y).join() !== truth.at(x, y).join()) throw new Error(`differs at ${x}, ${y}`);
          }
        }
      }
    },
  );

  it('longer than a page can be is refused in words', async () => {
    const long = plan(10, 5200, [piece({ xMm: 0, yMm: 0, widthMm: 10, heightMm: 10 })]);
    await expect(make('long.pdf', { plan: long, ppi: 72 })).rejects.toMatchObject({
      code: 'output.unsupported',
    });
    expect((await readdir(folder)).filter((name) => name.includes('long.pdf'))).toEqual([]);
  });
});

describe('PNG and TIFF', () => {
  it('hold the same pixels and say their resolution', async () => {
    const png = await make('a.png', { ppi: 300 });
    const tiff = await make('a.tiff', { ppi: 300 });
    const [one, other] = [await decode(png), await decode(tiff)];
    expect(Buffer.from(one.samples).equals(Buffer.from(other.samples))).toBe(true);
    expect((await sharp(png).metadata()).density).toBe(300);
    expect((await sharp(tiff).metadata()).density).toBe(300);
    // PNG itself: 300 / 0.0254 = 11811 pixels per metre.
    const bytes = await readFile(png);
    expect(bytes.readUInt32BE(bytes.indexOf('pHYs') + 4)).toBe(11811);
  });

  it('BigTIFF holds the same', async () => {
    const big = await makeWith('big.tiff', (file, image) => new TiffWriter(file, image, { big: true }));
    expect((await readFile(big)).readUInt16LE(2)).toBe(43);
    const truth = await decode(await make('small.tiff'));
    expect(Buffer.from((await decode(big)).samples).equals(Buffer.from(truth.samples))).toBe(true);
  });

  it('carry a profile when tagged, byte for byte', async () => {
    const icc = (await sharp(await sharp(artworkPath).withIccProfile('p3').png().toBuffer()).metadata()).icc!;
    for (const name of ['tagged.png', 'tagged.tiff']) {
      const { icc: found } = await sharp(await make(name, { icc })).metadata();
      expect(Buffer.from(found!).equals(Buffer.from(icc))).toBe(true);
    }
  });
});

describe('a file under its name is whole', () => {
  it('nothing is there before commit, and nothing is left after discard', async () => {
    const target = path.join(folder, 'whole.bin');
    const file = await OutFile.create(target);
    await file.append(Uint8Array.of(1, 2, 3));
    expect(await readdir(folder)).not.toContain('whole.bin');
    await file.discard();
    expect((await readdir(folder)).filter((name) => name.includes('whole.bin'))).toEqual([]);
  });

  it('a folder that is not there is a failure in words or a plain error, never a hang', async () => {
    await expect(OutFile.create(path.join(folder, 'no', 'where.bin'))).rejects.toThrow();
  });

  it.skipIf(!canMount())('a full disk is said, and leaves nothing behind', async () => {
    const small = path.join(folder, 'small');
    execFileSync('mkdir', [small]);
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=256k', 'tmpfs', small]);
    try {
      const file = await OutFile.create(path.join(small, 'sheet.png'));
      const fill = async () => {
        for (let block = 0; block < 100; block += 1) await file.append(new Uint8Array(65536));
      };
      await expect(fill()).rejects.toMatchObject({ code: 'disk.full' });
      await file.discard();
      expect(await readdir(small)).toEqual([]);
    } finally {
      execFileSync('umount', [small]);
    }
  });
});

describe('the generic CMYK profile', () => {
  it('is a CMYK profile', async () => {
    expect(Buffer.from(await genericCmykProfile()).toString('latin1', 16, 20)).toBe('CMYK');
  });
});

function canMount(): boolean {
  const probe = spawnSync('sh', ['-c', 'd=$(mktemp -d) && mount -t tmpfs tmpfs $d && umount $d && rmdir $d']);
  return probe.status === 0;
}
