import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Bench, flat, noisePicture } from './testing/bench.js';
import { decode } from './testing/pixels.js';
import { piece, plan } from './testing/plans.js';

let bench: Bench;
beforeAll(async () => {
  bench = await Bench.open();
});
afterAll(() => bench.close());

const white = [255, 255, 255];
const partly = { widthMm: 4, heightMm: 6, centreXMm: -2.5, centreYMm: 0, rotationDegrees: 0 };

describe('place and size', () => {
  it('every edge of the printed box is on its pixel, paper beyond it', async () => {
    const trim = { xMm: 3, yMm: 5, widthMm: 20, heightMm: 12 };
    const file = await bench.make({
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
    const file = await bench.make({
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
    const sheet = await decode(
      await bench.make({ artwork: await flat('#000000'), plan: plan(40, 30, [rounded]) }),
    );
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
    const sheet = await decode(await bench.make({ artwork: dot, plan: plan(30, 30, [turned]) }));
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
      await bench.make({ artwork: file, plan: plan(30, 10, [at(1.06, 0), at(15.44, 1)]) }),
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
    const right = await decode(await bench.make({ artwork: file, plan: plan(31, 18, pieces, { marks }) }));
    const mirrored = await decode(
      await bench.make({ artwork: file, plan: plan(31, 18, pieces, { marks, mirror: true }) }),
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

  it('a picture looked at through its piece reads the right way on the mirrored paper, the marks do not', async () => {
    const { file } = noisePicture(100, 60);
    const artwork = await decode(file);
    const fill = { xMm: 0.5, yMm: 0.5, widthMm: 3, heightMm: 1 };
    const marks = [{ kind: 'fill', rect: fill, rgb: [255, 0, 128], role: 'route-strip' }] as const;
    const through = piece({ xMm: 2, yMm: 3, widthMm: 10, heightMm: 6 }, { seenThrough: true });
    const paper = await decode(
      await bench.make({ artwork: file, plan: plan(20, 10, [through], { marks, mirror: true }) }),
    );
    for (let y = 0; y < 60; y += 1) {
      // On the paper the piece lies 2 mm from the right edge; in it nothing is reversed.
      for (let x = 0; x < 100; x += 1) expect(paper.at(80 + x, 30 + y)).toEqual(artwork.at(x, y));
    }
    expect(paper.at(180, 8)).toEqual([255, 0, 128]);
  });

  it('and so do its round edge and a picture that covers only a part', async () => {
    const { file } = noisePicture(40, 60);
    const form = { trimForm: 'ellipse', artwork: partly } as const;
    const at = { xMm: 2, yMm: 3, widthMm: 10, heightMm: 6 };
    const sheetOf = async (seenThrough: boolean) =>
      decode(await bench.make({ artwork: file, plan: plan(14, 12, [piece(at, { ...form, seenThrough })]) }));
    const [plain, reversed] = [await sheetOf(false), await sheetOf(true)];
    for (let y = 0; y < 120; y += 1) {
      for (let x = 0; x < 140; x += 1) expect(reversed.at(x, y)).toEqual(plain.at(139 - x, y));
    }
  });

  it('pixels of the artwork arrive untouched when it fits the grid', async () => {
    const { file, samples } = noisePicture(200, 100);
    const sheet = await decode(
      await bench.make({
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
      await bench.make({
        artwork: file,
        plan: plan(200, 150, [piece({ xMm: 0, yMm: 0, widthMm: 200, heightMm: 150 })]),
      }),
    );
    expect(Buffer.from(sheet.samples).equals(Buffer.from(samples))).toBe(true);
  });
});
