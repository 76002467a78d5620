import type { FlatOutline } from '#craft/blank';
import { Problem } from '#craft/problem';
import type { PixelSize, PlacementChoice } from './placing.js';
import type { ArtworkPlacement, SheetPlan } from './plan.js';

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
  /** A few words printed beside the marks: blank and artwork name. */
  readonly caption?: string | undefined;
}

export interface SheetLayout {
  /**
   * Ready for writing. When not even one piece fits, `plan` holds that one piece centred and hanging over the paper,
   * without marks, so that it can be shown; `piecesPlaced` is then 0 and the checks hold a stop.
   */
  readonly plan: SheetPlan;
  /** On the piece as it reads: before any turning of the piece on the sheet. */
  readonly artwork: ArtworkPlacement;
  readonly effectivePpi: number;
  readonly piecesAsked: number;
  readonly piecesPlaced: number;
  /** Pieces were turned by 90° because only so they (or more of them) fit. */
  readonly turned: boolean;
  /** Why the sheet bears no marks, one sentence; null when it bears them. */
  readonly noMarksReason: string | null;
  /** Paper on which what did not fit would: marks, one piece, or all copies. Null when nothing is wanting or none is known. */
  readonly paperThatWouldDo: string | null;
}

/** Step the copies over the paper, with marks. @throws Problem `sheet.impossible` for absurd orders. */
export function layOutSheet(_order: SheetOrder): SheetLayout {
  throw new Problem('internal.fault', 'Sheets are not laid out yet.', {
    remedy: 'Wait for the next version.',
  });
}
