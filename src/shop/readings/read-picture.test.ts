import sharp from 'sharp';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { writeCgats } from '#craft/cgats';
import { deltaE00, labFromSrgb, linearToSrgb, type Triple } from '#craft/colour';
import { closeVision } from '#shop/vision';
import { fieldOf, sideBySide, writeChart } from '../../../tests/simulator/chart.js';
import { blank, ink, type Picture, press, toFile } from '../../../tests/simulator/index.js';
import { type PictureParts, readPicture } from './read-picture.js';
import type { ReadResult } from './read-result.js';

/**
 * Truth: a solid field of each colour through the simulator's ink and press, its linear light taken as sRGB's. The
 * camera sees everything through a warm, darkening filter, and a card lies beside the sheet.
 */
const ppi = 150;
const [columns, rows] = [6, 4];
const cardLight = Array.from({ length: columns * rows }, (_, i): Triple => {
  if (i < columns) return [0.9 - 0.16 * i, 0.9 - 0.16 * i, 0.9 - 0.16 * i];
  const level = (shift: number): number => [0.04, 0.2, 0.45, 0.75][(i * (shift + 1) + shift) % 4]!;
  return [level(0), level(1), level(2)];
});
const asLab = (light: readonly number[]): Triple => labFromSrgb(light.map(linearToSrgb) as unknown as Triple);
const cardValues = new TextEncoder().encode(
  writeCgats(
    {
      device: { space: 'none', rows: cardLight.map(() => []) },
      lab: cardLight.map(asLab),
      xyz: null,
      spectra: null,
      sdLab: null,
      sampleIds: cardLight.map(
        (_, i) => `${String.fromCharCode(65 + (i % columns))}${Math.floor(i / columns) + 1}`,
      ),
      keywords: new Map(),
      remarks: [],
    },
    { originator: 'Invented card' },
  ),
);

let picture: Buffer;
let corners: [number, number][] = [];
const faults: unknown[] = [];
const parts: PictureParts = {
  orderOf: async () => null,
  kindOf: async () => 'colour',
  pixelLimit: 100_000_000,
  onFault: (error) => faults.push(error),
};

beforeAll(async () => {
  const chart = await writeChart({ widthMm: 148, heightMm: 210, count: 60, seed: 2, ppi });
  const piece = press(ink(chart.picture));
  const card = cardPicture(piece.height);
  const both = sideBySide(piece, card.picture);
  corners = card.corners.map(([x, y]) => [x + piece.width, y]);
  const filter = [0.95, 0.82, 0.6];
  const seen = { ...both, data: both.data.map((v, i) => v * filter[i % 3]!) };
  picture = await toFile(seen, { format: 'png', ppi });
});
afterAll(closeVision);

function cardPicture(height: number): { picture: Picture; corners: [number, number][] } {
  const cell = 60;
  const [left, top] = [40, 200];
  const width = columns * cell + 2 * left;
  const whole = blank(width, height, ppi, [0.5, 0.5, 0.5]);
  cardLight.forEach((light, i) => {
    const [x0, y0] = [left + (i % columns) * cell, top + Math.floor(i / columns) * cell];
    for (let y = y0; y < y0 + cell; y += 1) {
      for (let x = x0; x < x0 + cell; x += 1) whole.data.set(light, 3 * (y * width + x));
    }
  });
  const [right, bottom] = [left + columns * cell, top + rows * cell];
  return {
    picture: whole,
    corners: [
      [left, top],
      [right, top],
      [right, bottom],
      [left, bottom],
    ],
  };
}

const about = { fileName: 'photo.png', reader: null, readerMap: null, from: 'photo' as const };
const errorOf = ({ kept }: ReadResult): number => {
  const off = kept.patches
    .filter(({ sound }) => sound)
    .map(({ lab, deviceRgb }) => deltaE00(lab, asLab(fieldOf(deviceRgb, 'piece'))));
  return off.reduce((sum, v) => sum + v, 0) / off.length;
};

test('a card in the picture tells its light: grade C, and far nearer than the picture’s own word', async () => {
  const plain = await readPicture(picture, about, parts);
  const card = await readPicture(picture, { ...about, card: { corners, values: cardValues } }, parts);
  expect(faults).toEqual([]);
  expect([plain.facts.grade, card.facts.grade]).toEqual(['D', 'C']);
  expect(card.facts.sentences[1]).toContain('card in the picture');
  // Nobody calibrated anything here: neither reading may speak of it.
  for (const { facts } of [plain, card]) expect(facts.sentences.join(' ')).not.toContain('calibrated with');
  expect(errorOf(card)).toBeLessThan(2.5);
  expect(errorOf(card)).toBeLessThan(0.6 * errorOf(plain));
  expect(card.facts.expectedError.meanDeltaE00).toBeLessThan(plain.facts.expectedError.meanDeltaE00);
});

test('corners that show no card, and values that are none, are refused in words', async () => {
  const elsewhere: [number, number][] = [
    [300, 300],
    [500, 300],
    [500, 450],
    [300, 450],
  ];
  await expect(
    readPicture(picture, { ...about, card: { corners: elsewhere, values: cardValues } }, parts),
  ).rejects.toMatchObject({ code: 'scan.unclear' });
  const letter = new TextEncoder().encode('Dear rowing club');
  await expect(
    readPicture(picture, { ...about, card: { corners, values: letter } }, parts),
  ).rejects.toMatchObject({ code: 'measurements.broken' });
});

test('it stops when told to', async () => {
  const stopped = AbortSignal.abort();
  await expect(readPicture(picture, about, parts, { signal: stopped })).rejects.toMatchObject({
    code: 'job.cancelled',
  });
});

test('a scan in three channels that are all alike is no colour scan', async () => {
  const grey = await sharp(picture).toColourspace('b-w').png().toBuffer();
  const three = await sharp(grey).toColourspace('srgb').png().toBuffer();
  expect((await sharp(three).metadata()).channels).toBe(3);
  await expect(readPicture(three, about, parts)).rejects.toMatchObject({
    code: 'scan.unclear',
    message: expect.stringMatching(/grey/),
  });
});
