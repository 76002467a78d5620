import type { FlatOutline } from '#craft/blank';
import type { ArtworkPlacement } from '../plan.js';
import { cosSin } from '../turn.js';
import type { SmallPicture } from './subject.js';

/** The artwork seen on its piece: square cells over the trim's box and two cells beyond, row by row. */
export interface PiecePicture {
  readonly columns: number;
  readonly rows: number;
  readonly stepMm: number;
  /** R, G, B of each cell laid on white, 0..255. */
  readonly rgb: Uint8ClampedArray;
  /** 0..255; −1 where no artwork lies. */
  readonly alpha: Int16Array;
  /** Cell centres from the centre of the trim. */
  xMm(column: number): number;
  yMm(row: number): number;
}

/** Cells along the longer side: 0.3 mm on a mug's wrap, finer than any safe margin. */
const mostCells = 800;
export const cellsBeyond = 2;

/** Look the small picture up at every cell. The nearest pixel serves: cells are no smaller than its pixels. */
export function artworkOnPiece(
  picture: SmallPicture,
  outline: FlatOutline,
  artwork: ArtworkPlacement,
): PiecePicture {
  const pixelMm = artwork.widthMm / picture.widthPixels;
  const stepMm = Math.max(pixelMm, Math.max(outline.widthMm, outline.heightMm) / mostCells);
  const columns = Math.ceil(outline.widthMm / stepMm) + 2 * cellsBeyond;
  const rows = Math.ceil(outline.heightMm / stepMm) + 2 * cellsBeyond;
  const rgb = new Uint8ClampedArray(columns * rows * 3).fill(255);
  const alpha = new Int16Array(columns * rows).fill(-1);
  const xMm = (column: number): number => (column + 0.5 - columns / 2) * stepMm;
  const yMm = (row: number): number => (row + 0.5 - rows / 2) * stepMm;
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const pixel = pixelAt(picture, artwork, xMm(column), yMm(row));
      if (pixel < 0) continue;
      const cell = row * columns + column;
      alpha[cell] = picture.rgba[4 * pixel + 3]!;
      for (let channel = 0; channel < 3; channel += 1)
        rgb[3 * cell + channel] = onWhite(picture, pixel, channel);
    }
  }
  return { columns, rows, stepMm, rgb, alpha, xMm, yMm };
}

/** Index of the picture's pixel at a point of the piece, −1 outside the artwork. */
export function pixelAt(picture: SmallPicture, artwork: ArtworkPlacement, xMm: number, yMm: number): number {
  const { cos, sin } = cosSin(artwork.rotationDegrees);
  const dx = xMm - artwork.centreXMm;
  const dy = yMm - artwork.centreYMm;
  const column = Math.floor(((dx * cos + dy * sin) / artwork.widthMm + 0.5) * picture.widthPixels);
  const row = Math.floor(((dy * cos - dx * sin) / artwork.heightMm + 0.5) * picture.heightPixels);
  if (column < 0 || row < 0 || column >= picture.widthPixels || row >= picture.heightPixels) return -1;
  return row * picture.widthPixels + column;
}

/** A channel as it is printed: straight alpha laid on white. */
export function onWhite(picture: SmallPicture, pixel: number, channel: number): number {
  const alpha = picture.rgba[4 * pixel + 3]! / 255;
  return picture.rgba[4 * pixel + channel]! * alpha + 255 * (1 - alpha);
}
