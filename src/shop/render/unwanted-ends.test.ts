import { readdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { makeSheetFile } from './sheet-file.js';
import { Bench, flat, noisePicture } from './testing/bench.js';
import { piece, plan, tenPerMm } from './testing/plans.js';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.open();
});
afterAll(() => bench.close());

describe('ends that are not the wanted one', () => {
  it('a cancel leaves nothing behind', async () => {
    const source = await bench.source(noisePicture(2000, 1500).file);
    for (const stopAt of [0, 0.4, 0.6]) {
      const controller = new AbortController();
      const making = makeSheetFile({
        plan: plan(200, 150, [piece({ xMm: 0, yMm: 0, widthMm: 200, heightMm: 150 })]),
        ppi: tenPerMm,
        ...source,
        output: { format: 'png', bitsPerSample: 8, colourTag: 'device' },
        outPath: path.join(bench.folder, 'stopped.png'),
        signal: controller.signal,
        onProgress: ({ fraction }) => {
          if (fraction >= stopAt) controller.abort();
        },
      });
      await expect(making).rejects.toMatchObject({ code: 'job.cancelled' });
    }
    await expect
      .poll(() =>
        readdir(bench.folder).then((names) => names.filter((name) => /stopped|resampled|part/.test(name))),
      )
      .toEqual([]);
  });

  it('damage found late leaves nothing behind and is said', async () => {
    const source = await bench.source(await sharp(noisePicture(600, 400).file).jpeg().toBuffer());
    const bytes = await sharp(bench.artworkPath).toBuffer();
    await writeFile(bench.artworkPath, bytes.subarray(0, bytes.length / 2));
    const making = makeSheetFile({
      plan: plan(60, 40, [piece({ xMm: 0, yMm: 0, widthMm: 60, heightMm: 40 })]),
      ppi: tenPerMm,
      ...source,
      output: { format: 'pdf', bitsPerSample: 8, colourTag: 'device' },
      outPath: path.join(bench.folder, 'damaged.pdf'),
    });
    await expect(making).rejects.toMatchObject({ code: 'image.unreadable' });
    expect((await readdir(bench.folder)).filter((name) => /damaged|resampled|part/.test(name))).toEqual([]);
  });

  it('a bench.folder that cannot be written to is said in words', async () => {
    const source = await bench.source(await flat('#fff'));
    const making = makeSheetFile({
      plan: plan(10, 10, [piece({ xMm: 0, yMm: 0, widthMm: 10, heightMm: 10 })]),
      ppi: tenPerMm,
      ...source,
      output: { format: 'png', bitsPerSample: 8, colourTag: 'tagged' },
      outPath: path.join(bench.folder, 'tagged.png'),
    });
    await expect(making).rejects.toMatchObject({ code: 'output.unsupported' });
  });
});
