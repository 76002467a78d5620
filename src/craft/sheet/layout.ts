import type { FlatOutline } from '#craft/blank';
import { Problem } from '#craft/problem';
import { type PlannedFrame, planFrames } from './frame.js';
import { paperFor } from './paper-for.js';
import { effectivePpi, type PixelSize, type PlacementChoice, placeArtwork } from './placing.js';
import type { ArtworkPlacement, PlannedPiece, RectMm, SheetPlan } from './plan.js';
import { grownRect } from './rects.js';
import { rollLengthMm } from './roll.js';
import { type BoxMm, type Stepping, stepBoxes } from './stepping.js';
import { trimLines } from './trim-lines.js';

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
  const laid = lay(order);
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
  const laid = lay(order);
  return laid.room !== null && laid.step.boxes.length >= pieces;
}

interface Way {
  readonly step: Stepping;
  readonly turned: boolean;
  /** Null: no marks. */
  readonly room: PlannedFrame | null;
  readonly heightMm: number;
}

/** A roll is laid turned only where that spends clearly less of it. */
const worthTurning = 0.9;

function lay(order: SheetOrder): Way {
  const { paper } = order;
  if (paper.roll !== true) return best(order, paper.heightMm, [false, true]);
  const upright = cutToLength(order, false);
  const turned = cutToLength(order, true);
  if (turned.step.boxes.length !== upright.step.boxes.length) {
    return turned.step.boxes.length > upright.step.boxes.length ? turned : upright;
  }
  return turned.heightMm < upright.heightMm * worthTurning ? turned : upright;
}

/** The shortest sheet off the roll that takes as many pieces, marked alike, as the whole length would. */
function cutToLength(order: SheetOrder, turned: boolean): Way {
  const whole = best(order, order.paper.heightMm, [turned]);
  if (whole.step.boxes.length === 0) return whole;
  const lengthMm = rollLengthMm(order.paper.heightMm, (tryMm) => {
    const cut = best(order, tryMm, [turned]);
    return cut.step.boxes.length >= whole.step.boxes.length && (cut.room === null) === (whole.room === null);
  });
  return best(order, lengthMm, [turned]);
}

/** The way that takes most copies, with marks if any way with marks takes one; among equals the one named first. */
function best(order: SheetOrder, heightMm: number, turns: readonly boolean[]): Way {
  const { paper } = order;
  const printable = grownRect({ xMm: 0, yMm: 0, widthMm: paper.widthMm, heightMm }, -paper.marginMm);
  const rooms = planFrames({
    sheetId: order.sheetId,
    widthMm: paper.widthMm,
    heightMm,
    marginMm: paper.marginMm,
    mirrorOnWriting: order.mirrorOnWriting,
    caption: order.caption ?? '',
  });
  const waysIn = (room: PlannedFrame | null): Way[] =>
    turns.map((turned) => {
      const area = room?.liveArea ?? printable;
      const step = stepBoxes(area, bleedBox(order, turned), order.copies, paper.roll === true);
      return { room, turned, step, heightMm };
    });
  const marked = rooms.flatMap(waysIn).filter((way) => way.step.boxes.length > 0);
  const ways = marked.length > 0 ? marked : waysIn(null);
  return ways.reduce((kept, way) => (way.step.boxes.length > kept.step.boxes.length ? way : kept));
}

function bleedBox({ outline, bleedMm }: SheetOrder, turned: boolean): BoxMm {
  const widthMm = outline.widthMm + 2 * bleedMm;
  const heightMm = outline.heightMm + 2 * bleedMm;
  return turned ? { widthMm: heightMm, heightMm: widthMm } : { widthMm, heightMm };
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
    }),
  );
  const area = laid.room?.liveArea ?? grownRect(sheet, -paper.marginMm);
  return {
    sheetId: order.sheetId,
    widthMm: paper.widthMm,
    heightMm: laid.heightMm,
    mirrorOnWriting: order.mirrorOnWriting,
    pieces,
    marks: laid.step.boxes.length > 0 ? [...(laid.room?.marks ?? []), ...trimLines(pieces, area)] : [],
    frame: laid.step.boxes.length > 0 ? (laid.room?.frame ?? null) : null,
  };
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

function demandPossible({ paper, copies, bleedMm, artworkPixels }: SheetOrder): void {
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
