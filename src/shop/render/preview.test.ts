import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DeviceLink } from '#craft/icc';
import { renderPreview, samplePiece } from './preview.js';
import { Bench, noisePicture } from './testing/bench.js';
import { decode } from './testing/pixels.js';
import { piece, plan } from './testing/plans.js';
import { tiffByHand } from './testing/tiff-by-hand.js';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.open();
});
afterAll(() => bench.close());

describe('previews', () => {
  it('show exactly what is written, at the same resolution', async () => {
    const { file } = noisePicture(150, 90);
    const sheetPlan = plan(30, 20, [piece({ xMm: 3, yMm: 4, widthMm: 15, heightMm: 9 })], {
      mirror: true,
      marks: [{ kind: 'text', xMm: 3, yMm: 3, capHeightMm: 2, maxWidthMm: 20, text: 'Abc', role: 'label' }],
    });
    const written = await decode(await bench.make({ artwork: file, plan: sheetPlan }));
    const source = await bench.source(file);
    const shown = await decode(
      await renderPreview({ ...source, plan: sheetPlan, view: { kind: 'paper' }, maxPixels: 300 }),
    );
    expect([shown.width, shown.height]).toEqual([300, 200]);
    expect(Buffer.from(shown.samples).equals(Buffer.from(written.samples))).toBe(true);
  });

  it('the pressed piece reads the right way, trimmed, turned back, through the proof', async () => {
    const { file } = noisePicture(100, 60);
    const source = await bench.source(file);
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
    // Looked at through the piece or not: a person sees it the right way.
    const sheetPlan = plan(12, 14, [{ ...turned, seenThrough: true }], { mirror: true });
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
    const source = await bench.source(
      tiffByHand({ width: 100, height: 60, samples, channels: 3, photometric: 2 }),
    );
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
