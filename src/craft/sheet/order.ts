import type { FlatOutline } from '#craft/blank';
import { Problem } from '#craft/problem';
import type { PixelSize, PlacementChoice } from './placing.js';

/** The paper of a print setup; the contract's `paper` has this shape. */
export interface SheetPaper {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Not printable at each edge. */
  readonly marginMm: number;
  /** A roll: `heightMm` is the most that may be drawn off; the plan is only as long as its pieces need. */
  readonly roll?: boolean | undefined;
}

/** Everything a layout is made from. */
export interface SheetOrder {
  readonly sheetId: string;
  readonly paper: SheetPaper;
  /** From `developBlank`. */
  readonly outline: FlatOutline;
  readonly bleedMm: number;
  readonly artworkPixels: PixelSize;
  readonly placement: PlacementChoice;
  readonly copies: number;
  /** True when the setup says `mirroredBy: 'sheet'`. */
  readonly mirrorOnWriting: boolean;
  /** The blank is coated on its back and looked at through it. */
  readonly seenThrough?: boolean | undefined;
  /** A few words printed beside the marks: blank and artwork name. */
  readonly caption?: string | undefined;
}

/** @throws Problem `sheet.impossible` when the paper, the copies, the bleed or the artwork cannot be. */
export function demandPossible({ paper, copies, bleedMm, artworkPixels }: SheetOrder): void {
  if (!(paper.widthMm - 2 * paper.marginMm > 0 && paper.heightMm - 2 * paper.marginMm > 0)) {
    throw new Problem('sheet.impossible', 'The margins leave nothing of the paper to print on.', {
      remedy: 'Correct the paper size or the margins of the print setup.',
      where: 'paper.marginMm',
    });
  }
  if (!(Number.isInteger(copies) && copies >= 1)) {
    throw new Problem('sheet.impossible', `A sheet of ${copies} pieces cannot be laid out.`, {
      remedy: 'Ask for a whole number of pieces, at least one.',
      where: 'copies',
    });
  }
  if (!(bleedMm >= 0 && Number.isFinite(bleedMm))) {
    throw new Problem('sheet.impossible', `A bleed of ${bleedMm} mm cannot be.`, {
      remedy: 'Give the bleed as 0 mm or more.',
      where: 'bleedMm',
    });
  }
  if (!(artworkPixels.widthPixels >= 1 && artworkPixels.heightPixels >= 1)) {
    throw new Problem('sheet.impossible', 'The artwork has no pixels.', {
      remedy: 'Choose another picture.',
      where: 'artwork',
    });
  }
}
