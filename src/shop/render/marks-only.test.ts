import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtemp, readdir, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SheetOutputOptions } from '#contract';
import type { DeviceLink } from '#craft/icc';
import { choosePatches, colourSheetId, planColourSheet } from '#craft/testsheet';
import { closeRenderWorkers } from './bands/pool.js';
import { renderPreview } from './preview.js';
import { makeSheetFile } from './sheet-file.js';
import { decode } from './testing/pixels.js';
import { piece, plan as planOf, tenPerMm } from './testing/plans.js';
import type { RenderProgress } from './types.js';

let folder: string;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'marks-only-'));
});
afterAll(async () => {
  await closeRenderWorkers();
  await rm(folder, { recursive: true, force: true });
});

const chart = (mirrorOnWriting = true) =>
  planColourSheet({
    sheetId: colourSheetId({ count: 40, seed: 4, material: 'hard' }),
    patches: choosePatches(40, 4),
    widthMm: 118,
    heightMm: 84,
    marginMm: 3,
    material: 'hard',
    seed: 4,
    mirrorOnWriting,
    caption: 'Saltmarsh Rowing Club, tile',
  });

async function make(
  name: string,
  options: { mirror?: boolean; output?: Partial<SheetOutputOptions>; icc?: Uint8Array } = {},
): Promise<string> {
  const outPath = path.join(folder, name);
  const format = name.endsWith('pdf') ? 'pdf' : name.endsWith('png') ? 'png' : 'tiff';
  await makeSheetFile({
    plan: chart(options.mirror).plan,
    ppi: tenPerMm,
    output: { format, bitsPerSample: 8, colourTag: options.icc ? 'tagged' : 'device', ...options.output },
    ...(options.icc ? { iccBytes: options.icc } : {}),
    outPath,
    tempFolder: folder,
    workers: 2,
  });
  return outPath;
}

const has = (program: string) => spawnSync(program, ['--version']).error === undefined;

describe('a sheet of marks alone', () => {
  it.each([
    [8, 1],
    [16, 257],
  ] as const)(
    'bears every patch in its exact device colour, edge to edge, mirrored once, %d bit',
    async (bitsPerSample, scale) => {
      const name = `patches-${bitsPerSample}.${bitsPerSample === 8 ? 'png' : 'tif'}`;
      const sheet = await decode(await make(name, { output: { bitsPerSample } }), bitsPerSample);
      expect([sheet.width, sheet.height]).toEqual([1180, 840]);
      for (const { rect, deviceRgb } of chart().layout.patches) {
        const right = Math.round((rect.xMm + rect.widthMm) * 10);
        const [left, top, bottom] = [rect.xMm, rect.yMm, rect.yMm + rect.heightMm].map((mm) =>
          Math.round(mm * 10),
        );
        for (const [x, y] of [
          [left!, top!],
          [right - 1, bottom! - 1],
          [Math.floor((left! + right) / 2), Math.floor((top! + bottom!) / 2)],
        ]) {
          expect(sheet.at(1179 - x!, y!)).toEqual(deviceRgb.map((v) => v * scale));
        }
        expect(sheet.at(1179 - (left! - 1), top!)).toEqual([255, 255, 255].map((v) => v * scale));
      }
    },
  );

  it('is the other one’s mirror image, words and all', async () => {
    const mirrored = await decode(await make('mirrored.png'));
    const right = await decode(
      await sharp(await make('right.png', { mirror: false }))
        .flop()
        .png()
        .toBuffer(),
    );
    // The words, the code and so the id differ in one letter: M or N. All below the top band is the same.
    const from = 1180 * 3 * Math.round(10 * chart().layout.area.yMm);
    expect(
      Buffer.from(mirrored.samples.subarray(from)).equals(Buffer.from(right.samples.subarray(from))),
    ).toBe(true);
  });

  it.skipIf(!has('pdftoppm'))('is the same in PDF as poppler draws it, and in TIFF', async () => {
    const truth = await decode(await make('truth.png'));
    const out = path.join(folder, 'drawn');
    execFileSync('pdftoppm', ['-r', String(tenPerMm), '-png', '-singlefile', await make('chart.pdf'), out]);
    for (const file of [`${out}.png`, await make('chart.tif')]) {
      const drawn = await decode(file);
      expect([drawn.width, drawn.height]).toEqual([truth.width, truth.height]);
      expect(Buffer.from(drawn.samples).equals(Buffer.from(truth.samples))).toBe(true);
    }
  });

  it.skipIf(!has('qpdf'))('is a sound PDF, tagged or not', async () => {
    const blank = sharp({ create: { width: 1, height: 1, channels: 3, background: '#fff' } });
    const icc = (await sharp(await blank.withIccProfile('p3').png().toBuffer()).metadata()).icc!;
    for (const file of [await make('plain.pdf'), await make('tagged.pdf', { icc })]) {
      expect(execFileSync('qpdf', ['--check', file], { encoding: 'utf8' })).toContain(
        'No syntax or stream encoding errors',
      );
    }
    const tagged = await make('tagged.png', { icc });
    expect(Buffer.from((await sharp(tagged).metadata()).icc!).equals(Buffer.from(icc))).toBe(true);
    // A tag says what the numbers mean; it does not change them.
    expect(
      Buffer.from((await decode(tagged)).samples).equals(
        Buffer.from((await decode(await make('untagged.png'))).samples),
      ),
    ).toBe(true);
    expect((await sharp(path.join(folder, 'untagged.png')).metadata()).icc).toBeUndefined();
  });

  it('tells how far it is, never of artwork', async () => {
    const said: RenderProgress[] = [];
    await makeSheetFile({
      plan: chart().plan,
      ppi: 150,
      output: { format: 'pdf', bitsPerSample: 8, colourTag: 'device' },
      outPath: path.join(folder, 'told.pdf'),
      tempFolder: folder,
      onProgress: (progress) => said.push(progress),
    });
    expect(new Set(said.map(({ step }) => step))).toEqual(new Set(['Writing the sheet']));
    expect(said.at(-1)!.fraction).toBe(1);
  });

  it('wants artwork where it has pieces, and leaves nothing behind', async () => {
    const request = {
      plan: planOf(20, 20, [piece({ xMm: 1, yMm: 1, widthMm: 10, heightMm: 10 })]),
      ppi: 100,
      output: { format: 'png', bitsPerSample: 8, colourTag: 'device' },
      outPath: path.join(folder, 'none.png'),
      tempFolder: folder,
    } as const;
    await expect(makeSheetFile(request)).rejects.toMatchObject({ code: 'internal.fault' });
    expect((await readdir(folder)).filter((name) => name.includes('none'))).toEqual([]);
  });
});

describe('previews of a sheet of marks alone', () => {
  it('on paper are what is written', async () => {
    const { plan } = chart();
    const shown = await renderPreview({ plan, tempFolder: folder, view: { kind: 'paper' }, maxPixels: 1180 });
    const written = await readFile(await make('again.png'));
    expect(Buffer.from((await decode(shown)).samples).equals((await decode(written)).samples as Buffer)).toBe(
      true,
    );
  });

  it('pressed read the right way, through the proof', async () => {
    const { plan, layout } = chart();
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
    const at = async (proof: DeviceLink | null) =>
      decode(
        await renderPreview({ plan, tempFolder: folder, view: { kind: 'pressed', proof }, maxPixels: 1180 }),
      );
    const [plain, proofed] = [await at(null), await at(inverse)];
    for (const { rect, deviceRgb } of layout.patches) {
      const [x, y] = [rect.xMm + rect.widthMm / 2, rect.yMm + rect.heightMm / 2].map((mm) =>
        Math.floor(10 * mm),
      );
      expect(plain.at(x!, y!)).toEqual([...deviceRgb]);
      proofed.at(x!, y!).forEach((v, c) => {
        expect(Math.abs(v - (255 - deviceRgb[c]!))).toBeLessThanOrEqual(1);
      });
    }
  });
});
