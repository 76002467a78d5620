/** A card of known patches as a program gets it in a photo: perspective, a cast, vignetting, softness, noise, 8 bits. */
import type { MeasurementTable } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import { type LinearRgb, type SampledPicture, srgbCurve } from '#craft/patchreading';
import { fitHomography, mapPoint, type Point } from '#craft/reading';
import { chanceOf } from './chance.js';
import { blurred, warped } from './optics.js';
import { blank, type Picture, toBytes } from './picture.js';
import { tableOf } from './virtual-printer-comparison.js';

export interface CardColours {
  readonly columns: number;
  readonly rows: number;
  /** Row by row; then the grey scale, if any. */
  readonly light: readonly LinearRgb[];
  readonly lab: readonly Triple[];
  readonly greys: number;
}

const cell = 36;
const margin = 2 * cell;
/** Centre of the grey scale under the field, in cells. */
const greysBelow = 1.5;

/** Patches with thin dark lines between them on a middling grey ground. */
export function cardPicture({ columns, rows, light, greys }: CardColours): Picture {
  const width = columns * cell + 2 * margin;
  const height = (rows + 3) * cell + 2 * margin;
  const picture = blank(width, height, 300, [0.35, 0.35, 0.35]);
  const paint = (x: number, y: number, rgb: LinearRgb): void => {
    for (let j = 2; j < cell - 2; j += 1)
      for (let i = 2; i < cell - 2; i += 1) {
        const at = 3 * ((y + j) * width + x + i);
        for (let c = 0; c < 3; c += 1) picture.data[at + c] = rgb[c]!;
      }
  };
  for (let i = 0; i < columns * rows; i += 1) {
    paint(margin + (i % columns) * cell, margin + Math.floor(i / columns) * cell, light[i]!);
  }
  for (let i = 0; i < greys; i += 1) {
    paint(margin + (i - 1) * cell, margin + (rows + greysBelow - 0.5) * cell, light[columns * rows + i]!);
  }
  return picture;
}

export interface PhotoOfCard {
  readonly picture: SampledPicture;
  /** Of the field of patches, from A1 on, going round as the card reads. */
  readonly corners: Point[];
}

/** @param turn quarter turns clockwise, then the perspective; `mirrored` first */
export function photoOfCard(
  colours: CardColours,
  options: {
    readonly turn?: 0 | 1 | 2 | 3;
    readonly mirrored?: boolean;
    readonly cast?: Triple;
    readonly vignetting?: number;
    readonly perspective?: number;
    readonly seed: number;
  },
): PhotoOfCard {
  const { turn = 0, mirrored = false, cast = [1, 1, 1], vignetting = 0, perspective = 0.06, seed } = options;
  const card = cardPicture(colours);
  const chance = chanceOf(seed);
  const [w, h] = turn % 2 ? [card.height, card.width] : [card.width, card.height];
  const size = { width: Math.round(1.1 * w), height: Math.round(1.1 * h), ppi: 300 };
  const [x0, y0] = [0.05 * w, 0.05 * h];
  const bend = (): number => perspective * chance.between(0, 1);
  const outer: Point[] = [
    { x: x0 + bend() * w, y: y0 + bend() * h },
    { x: x0 + w - bend() * w, y: y0 + bend() * h },
    { x: x0 + w - bend() * w, y: y0 + h - bend() * h },
    { x: x0 + bend() * w, y: y0 + h - bend() * h },
  ];
  const edges: Point[] = [
    { x: 0, y: 0 },
    { x: card.width, y: 0 },
    { x: card.width, y: card.height },
    { x: 0, y: card.height },
  ];
  const place = (i: number): Point => outer[(((mirrored ? 5 - i : i) % 4) + turn) % 4]!;
  const toPhoto = fitHomography(edges.map((from, i) => ({ from, to: place(i) })))!;
  const toCard = fitHomography(edges.map((to, i) => ({ from: place(i), to })))!;
  const seen = blurred(
    warped(
      card,
      size,
      (x, y) => {
        const p = mapPoint(toCard, { x, y });
        return [p.x, p.y];
      },
      () => [0.2, 0.18, 0.15],
    ),
    0.8,
  );
  const { width, height } = size;
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 3) {
      const r2 = ((x - width / 2) ** 2 + (y - height / 2) ** 2) / ((width ** 2 + height ** 2) / 4);
      for (let c = 0; c < 3; c += 1) {
        const v = seen.data[at + c]! * cast[c]! * (1 - vignetting * r2);
        seen.data[at + c] = v + (0.002 + 0.008 * Math.sqrt(Math.max(0, v))) * chance.normal();
      }
    }
  }
  const curve = srgbCurve(8);
  const [right, bottom] = [margin + colours.columns * cell, margin + colours.rows * cell];
  return {
    picture: { width, height, data: new Uint8Array(toBytes(seen)), toLinear: [curve, curve, curve] },
    corners: [
      { x: margin, y: margin },
      { x: right, y: margin },
      { x: right, y: bottom },
      { x: margin, y: bottom },
    ].map((point) => mapPoint(toPhoto, point)),
  };
}

/** The card's file: A1, A2 … by rows, then GS0 …, in an order of its own. */
export function fileOfCard({ columns, rows, lab, greys }: CardColours): MeasurementTable {
  const ids = lab.map((_, i) =>
    i < columns * rows
      ? `${String.fromCharCode(65 + Math.floor(i / columns))}${(i % columns) + 1}`
      : `GS${i - columns * rows}`,
  );
  const order = lab.map((_, i) => (7 * i + 3) % lab.length);
  const isWhole = new Set(order).size === lab.length;
  const own = isWhole ? order : lab.map((_, i) => i);
  return {
    ...tableOf(
      own.map(() => [0, 0, 0]),
      own.map((i) => lab[i]!),
    ),
    device: { space: 'none', rows: own.map(() => []) },
    sampleIds: own.map((i) => ids[i]!.slice(0, greys ? 4 : 3)),
  };
}
