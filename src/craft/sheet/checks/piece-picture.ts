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
  const lookUp = pixelFinder(picture, artwork);
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const pixel = lookUp(xMm(column), yMm(row));
      if (pixel < 0) continue;
      const cell = row * columns + column;
      const solid = picture.rgba[4 * pixel + 3]!;
      alpha[cell] = solid;
      for (let channel = 0; channel < 3; channel += 1) {
        rgb[3 * cell + channel] = 255 - ((255 - picture.rgba[4 * pixel + channel]!) * solid) / 255;
      }
    }
  }
  return { columns, rows, stepMm, rgb, alpha, xMm, yMm };
}

/** Finds the index of the picture's pixel at a point of the piece, −1 outside the artwork. */
export function pixelFinder(
  { widthPixels, heightPixels }: SmallPicture,
  artwork: ArtworkPlacement,
): (xMm: number, yMm: number) => number {
  const { cos, sin } = cosSin(artwork.rotationDegrees);
  const across = widthPixels / artwork.widthMm;
  const down = heightPixels / artwork.heightMm;
  return (xMm, yMm) => {
    const dx = xMm - artwork.centreXMm;
    const dy = yMm - artwork.centreYMm;
    const column = Math.floor((dx * cos + dy * sin) * across + widthPixels / 2);
    const row = Math.floor((dy * cos - dx * sin) * down + heightPixels / 2);
    if (column < 0 || row < 0 || column >= widthPixels || row >= heightPixels) return -1;
    return row * widthPixels + column;
  };
}

/** A channel as it is printed: straight alpha laid on white. */
export function onWhite(picture: SmallPicture, pixel: number, channel: number): number {
  const alpha = picture.rgba[4 * pixel + 3]! / 255;
  return picture.rgba[4 * pixel + channel]! * alpha + 255 * (1 - alpha);
}
