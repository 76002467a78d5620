import { Problem } from '#craft/problem';
import type { PlannedPiece, RectMm, SheetPlan } from '#craft/sheet';
import { mmPerInch } from '#craft/units';
import type { ClipForm } from './clip.js';

/** A box of whole pixels. */
export interface PixelBox {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Where one piece lies on the sheet's pixel grid, reading the right way. */
export interface PixelPiece {
  /** What is printed: bleed box. */
  readonly box: PixelBox;
  readonly form: ClipForm;
  readonly artwork: PixelArtwork;
  /** The picture is laid left for right (see `PlannedPiece.seenThrough`). */
  readonly leftForRight: boolean;
}

/** The artwork relative to the top left corner of its piece's box, in pixels; size before turning. */
export interface PixelArtwork {
  readonly width: number;
  readonly height: number;
  readonly centreX: number;
  readonly centreY: number;
  readonly rotationDegrees: number;
}

export interface PixelSheet {
  readonly width: number;
  readonly height: number;
  readonly ppi: number;
  readonly pieces: readonly PixelPiece[];
}

/** A side longer than this is a mistake, not a sheet: 5080 mm at 1200 ppi is 240 000. */
const longestSidePixels = 300_000;

/**
 * Put a plan on the pixel grid. Sizes are rounded once for all pieces of a size, positions each to the nearest
 * pixel: every trim edge is within half a pixel of its size and place, and copies come out alike.
 */
export function toPixelSheet(plan: SheetPlan, ppi: number): PixelSheet {
  const perMm = ppi / mmPerInch;
  const width = Math.round(plan.widthMm * perMm);
  const height = Math.round(plan.heightMm * perMm);
  if (!(width >= 1 && height >= 1 && width <= longestSidePixels && height <= longestSidePixels)) {
    throw new Problem('sheet.impossible', `A sheet of ${width} × ${height} pixels cannot be made.`, {
      remedy: 'Choose a smaller sheet or fewer pixels per inch.',
    });
  }
  return { width, height, ppi, pieces: plan.pieces.map((piece) => toPixelPiece(piece, perMm)) };
}

export function toPixelBox(rect: RectMm, perMm: number): PixelBox {
  return {
    left: Math.round(rect.xMm * perMm),
    top: Math.round(rect.yMm * perMm),
    width: Math.max(1, Math.round(rect.widthMm * perMm)),
    height: Math.max(1, Math.round(rect.heightMm * perMm)),
  };
}

function toPixelPiece(piece: PlannedPiece, perMm: number): PixelPiece {
  const { trim, bleed, artwork } = piece;
  // The trim is placed first and the bleed grown from it, so that the trim's own edge carries no second rounding.
  const trimBox = toPixelBox(trim, perMm);
  const before = (mm: number) => Math.round(mm * perMm);
  const leftBleed = before(trim.xMm - bleed.xMm);
  const topBleed = before(trim.yMm - bleed.yMm);
  const rightBleed = before(bleed.xMm + bleed.widthMm - trim.xMm - trim.widthMm);
  const bottomBleed = before(bleed.yMm + bleed.heightMm - trim.yMm - trim.heightMm);
  const box = {
    left: trimBox.left - leftBleed,
    top: trimBox.top - topBleed,
    width: trimBox.width + leftBleed + rightBleed,
    height: trimBox.height + topBleed + bottomBleed,
  };
  return {
    box,
    form:
      piece.trimForm === 'ellipse'
        ? { kind: 'ellipse' }
        : {
            kind: 'rectangle',
            // A parallel curve: a square corner stays square, a round one grows by the bleed.
            cornerRadius:
              piece.trimCornerRadiusMm > 0
                ? piece.trimCornerRadiusMm * perMm + Math.min(leftBleed, topBleed)
                : 0,
          },
    artwork: {
      width: Math.max(1, Math.round(artwork.widthMm * perMm)),
      height: Math.max(1, Math.round(artwork.heightMm * perMm)),
      centreX: leftBleed + trimBox.width / 2 + artwork.centreXMm * perMm,
      centreY: topBleed + trimBox.height / 2 + artwork.centreYMm * perMm,
      rotationDegrees: ((artwork.rotationDegrees % 360) + 360) % 360,
    },
    leftForRight: piece.seenThrough === true,
  };
}
