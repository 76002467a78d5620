import { planFrame } from './frame.js';
import { demandPossible, type SheetOrder } from './order.js';
import { paperFor } from './paper-for.js';
import { effectivePpi, placeArtwork } from './placing.js';
import type { ArtworkPlacement, PlannedPiece, RectMm, SheetPlan } from './plan.js';
import { grownRect } from './rects.js';
import type { BoxMm } from './stepping.js';
import { trimLines } from './trim-lines.js';
import { bestWay, bleedBox, frameOrder, type Way } from './ways.js';

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
  /** Paper on which what did not fit would (marks, one piece, or all copies); null when nothing is wanting or none is known. */
  readonly paperThatWouldDo: string | null;
}

/**
 * Step the copies over the paper, outside of them the marks. Upright if that takes as many as turned by 90°; with
 * marks if a single piece fits so, else without; on a roll in the shorter of the two ways, cut to length.
 *
 * @throws Problem `sheet.impossible` when the paper, the copies or the bleed cannot be.
 */
export function layOutSheet(order: SheetOrder): SheetLayout {
  demandPossible(order);
  const { outline, bleedMm, artworkPixels } = order;
  const artwork = placeArtwork(outline, artworkPixels, order.placement, { bleedMm });
  const laid = bestWay(order);
  const placed = laid.step.boxes.length;
  const wanting = placed < order.copies || laid.room === null;
  // Where a piece finds no room, paper for one is the news; the others can follow on further sheets.
  const wanted = placed > 0 && laid.room !== null ? order.copies : 1;
  return {
    plan: planOf(order, laid, artwork),
    artwork,
    effectivePpi: effectivePpi(artworkPixels, artwork),
    piecesAsked: order.copies,
    piecesPlaced: placed,
    turned: laid.turned,
    paperThatWouldDo: wanting ? paperFor(order.paper, (paper) => holds({ ...order, paper }, wanted)) : null,
  };
}

/** Whether a paper holds so many pieces of an order, with marks. */
function holds(order: SheetOrder, pieces: number): boolean {
  const way = bestWay(order);
  return way.room !== null && way.step.boxes.length >= pieces;
}

function planOf(order: SheetOrder, laid: Way, artwork: ArtworkPlacement): SheetPlan {
  const { paper } = order;
  const sheet = { xMm: 0, yMm: 0, widthMm: paper.widthMm, heightMm: laid.heightMm };
  const boxes =
    laid.step.boxes.length > 0 ? laid.step.boxes : [hangingOver(sheet, bleedBox(order, laid.turned))];
  const pieces = boxes.map(
    (bleed, index): PlannedPiece => ({
      index,
      trim: grownRect(bleed, -order.bleedMm),
      trimForm: order.outline.form,
      trimCornerRadiusMm: order.outline.cornerRadiusMm,
      bleed,
      artwork: laid.turned ? turnedArtwork(artwork) : artwork,
      ...(laid.turned ? { turnedDegrees: 90 as const } : {}),
      ...(order.seenThrough === true ? { seenThrough: true } : {}),
    }),
  );
  const bare = {
    sheetId: order.sheetId,
    widthMm: paper.widthMm,
    heightMm: laid.heightMm,
    mirrorOnWriting: order.mirrorOnWriting,
    pieces,
  };
  if (laid.step.boxes.length === 0) return { ...bare, marks: [], frame: null };
  if (laid.room === null) {
    return { ...bare, marks: trimLines(pieces, grownRect(sheet, -paper.marginMm)), frame: null };
  }
  const planned = planFrame({ ...frameOrder(order, laid.heightMm), variant: laid.room.variant });
  if (planned.frame === null) return { ...bare, marks: [], frame: null };
  const { frame, marks } = planned;
  return { ...bare, marks: [...marks, ...trimLines(pieces, planned.liveArea)], frame };
}

function hangingOver(sheet: RectMm, box: BoxMm): RectMm {
  return {
    xMm: (sheet.widthMm - box.widthMm) / 2,
    yMm: (sheet.heightMm - box.heightMm) / 2,
    widthMm: box.widthMm,
    heightMm: box.heightMm,
  };
}

/** A quarter turn clockwise as seen (y down): (x, y) → (−y, x). */
function turnedArtwork(artwork: ArtworkPlacement): ArtworkPlacement {
  return {
    widthMm: artwork.widthMm,
    heightMm: artwork.heightMm,
    centreXMm: 0 - artwork.centreYMm,
    centreYMm: artwork.centreXMm,
    rotationDegrees: artwork.rotationDegrees + 90,
  };
}
