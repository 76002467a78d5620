/** A reference card of other colourants lying to the right of a piece, in a reader's light; and its file. */
import { writeCgats } from '#craft/cgats';
import { createRandom } from '#craft/numerics';
import { sideBySide } from './chart.js';
import { type CardColours, cardPicture, fileOfCard } from './photo-of-card.js';
import type { Picture } from './picture.js';
import { otherColourants, type Triple } from './virtual-printer.js';
import type { VirtualReader } from './virtual-reader.js';

/** Cells and margin of `cardPicture`, pixels. */
const cell = 36;
const margin = 2 * cell;

export interface PieceAndCard {
  readonly picture: Picture;
  /** Of the card's field of patches in that picture, from A1 on. */
  readonly corners: readonly (readonly [number, number])[];
  readonly values: Uint8Array;
}

export function withCardBeside(piece: Picture, reader: VirtualReader, set: number): PieceAndCard {
  const [columns, rows] = [8, 12];
  const random = createRandom(5100 + set);
  const device = Array.from({ length: columns * rows }, (_, i): Triple => {
    // A row of greys first; then colours all over.
    if (i < columns) return [1 - i / (columns - 1), 1 - i / (columns - 1), 1 - i / (columns - 1)];
    return [random.uniform(), random.uniform(), random.uniform()];
  });
  const source = otherColourants(set);
  const light = source.reflect(device).map((spectrum) => reader.light(spectrum));
  const card: CardColours = { columns, rows, greys: 0, light, lab: source.print(device) };
  const picture = cardPicture(card);
  const [right, bottom] = [margin + columns * cell, margin + rows * cell];
  const corners = [
    [margin, margin],
    [right, margin],
    [right, bottom],
    [margin, bottom],
  ].map(([x, y]) => [piece.width + x!, y!] as const);
  return {
    picture: sideBySide(piece, picture),
    corners,
    values: Buffer.from(writeCgats(fileOfCard(card), { originator: 'Virtual card (invented)' })),
  };
}
