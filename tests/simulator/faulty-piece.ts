import { chanceOf } from './chance.js';
import { faultyDye } from './faulty-dye.js';
import type { Picture } from './picture.js';
import {
  type PieceCamera,
  type PieceShape,
  photographPiece,
  placeOnPhoto,
  type SeenAt,
} from './piece-camera.js';
import { type PieceFault, towards } from './piece-faults.js';

export type Piece = PieceShape & { readonly coating?: readonly [number, number, number] };

export interface FaultyPhoto {
  readonly picture: Picture;
  readonly truth: {
    readonly faults: readonly PieceFault[];
    /** Where a place of the artwork as it should read (its pixels) lies in the photograph. */
    readonly placeInPhoto: (x: number, y: number) => SeenAt;
    /** The same of places of the piece, mm from its middle. */
    readonly pieceInPhoto: (xMm: number, yMm: number) => SeenAt;
    readonly artworkWidthMm: number;
    readonly artworkHeightMm: number;
    readonly pixelsPerMm: number;
  };
}

/**
 * Artwork (linear light; its ppi is its size on the piece) → print → press → piece → photograph. Dye is optical density
 * (Beer–Lambert) over the coating's own light: fading scales it, spreading diffuses it, a second transfer adds to it.
 * A stated model, no claim about any dye, press or camera.
 */
export function faultyPhoto(what: {
  readonly artwork: Picture;
  readonly faults: readonly PieceFault[];
  readonly piece: Piece;
  readonly camera: PieceCamera;
  readonly seed: number;
}): FaultyPhoto {
  const { artwork, faults, piece, camera, seed } = what;
  const perMm = artwork.ppi / 25.4;
  const dye = faultyDye(artwork, faults, chanceOf(seed));
  const surface = onPiece(dye, faults, piece);
  const pieceInPhoto = placeOnPhoto(piece, camera, seed);
  const isReversed = faults.some(({ kind }) => kind === 'reversed');
  const { dxMm, dyMm, scale, degrees } = placing(faults);
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  return {
    picture: photographPiece(surface, piece, camera, seed),
    truth: {
      faults,
      pieceInPhoto,
      placeInPhoto: (x, y) => {
        const xMm = ((isReversed ? artwork.width - x : x) - artwork.width / 2) / perMm;
        const yMm = (y - artwork.height / 2) / perMm;
        return pieceInPhoto(dxMm + scale * (cos * xMm - sin * yMm), dyMm + scale * (sin * xMm + cos * yMm));
      },
      artworkWidthMm: artwork.width / perMm,
      artworkHeightMm: artwork.height / perMm,
      pixelsPerMm: perMm,
    },
  };
}

const wellPlaced = { dxMm: 0, dyMm: 0, scale: 1, degrees: 0 };
const placing = (faults: readonly PieceFault[]): typeof wellPlaced =>
  faults.find((fault) => fault.kind === 'placed') ?? wellPlaced;

/** The whole surface of the piece: coating, dye where the paper lay, browning. */
function onPiece(dye: Picture, faults: readonly PieceFault[], piece: Piece): Picture {
  const perMm = dye.ppi / 25.4;
  const { coating = [0.86, 0.87, 0.86] } = piece;
  const width = Math.round(piece.widthMm * perMm);
  const height = Math.round(piece.heightMm * perMm);
  const { dxMm, dyMm, scale, degrees } = placing(faults);
  const [cos, sin] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
  const scorches = faults.flatMap((fault) => (fault.kind === 'scorch' ? [fault] : []));
  const isPlain = dxMm === 0 && dyMm === 0 && scale === 1 && degrees === 0;
  const data = new Float32Array(width * height * 3);
  for (let y = 0, at = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, at += 3) {
      const xMm = (x + 0.5 - width / 2) / perMm - dxMm;
      const yMm = (y + 0.5 - height / 2) / perMm - dyMm;
      const u = isPlain ? xMm : (cos * xMm + sin * yMm) / scale;
      const v = isPlain ? yMm : (cos * yMm - sin * xMm) / scale;
      let brown = 0;
      for (const { where, density } of scorches) {
        brown +=
          density * (where === 'overall' ? 1 : towards(where, (x + 0.5) / width, (y + 0.5) / height) ** 2);
      }
      for (let c = 0; c < 3; c += 1) {
        const density = sampled(dye, u * perMm + dye.width / 2, v * perMm + dye.height / 2, c);
        data[at + c] = coating[c]! * Math.exp(-density) * 10 ** (-brown * browning[c]!);
      }
    }
  }
  return { width, height, ppi: dye.ppi, data };
}

/** Browned polymers take blue light most, red least (common practice: yellow first, then brown); ratios from memory. */
const browning = [0.15, 0.45, 1];

function sampled({ width, height, data }: Picture, x: number, y: number, c: number): number {
  if (x < 0 || y < 0 || x > width || y > height) return 0;
  const px = Math.min(Math.max(x - 0.5, 0), width - 1);
  const py = Math.min(Math.max(y - 0.5, 0), height - 1);
  const [x0, y0] = [Math.floor(px), Math.floor(py)];
  const [x1, y1] = [Math.min(x0 + 1, width - 1), Math.min(y0 + 1, height - 1)];
  const [fx, fy] = [px - x0, py - y0];
  const at = (i: number, j: number): number => data[3 * (j * width + i) + c]!;
  return (
    (at(x0, y0) * (1 - fx) + at(x1, y0) * fx) * (1 - fy) + (at(x0, y1) * (1 - fx) + at(x1, y1) * fx) * fy
  );
}
