import type { RectMm, SheetPlan } from '#craft/sheet';
import { mmToPoints } from '#craft/units';

type Box = readonly [left: number, bottom: number, right: number, top: number];

/** Page boxes in points, y up, as the sheet is written (mirrored when it is). */
export interface PdfBoxes {
  /** The sheet, exactly. */
  readonly media: Box;
  /** Round everything printed for the pieces. */
  readonly bleed: Box;
  /** Round the pieces' trims: several pieces share one page, so this is their common frame. */
  readonly trim: Box;
}

export function pdfBoxes(plan: SheetPlan): PdfBoxes {
  const sheet = { xMm: 0, yMm: 0, widthMm: plan.widthMm, heightMm: plan.heightMm };
  return {
    media: toBox(sheet, plan),
    bleed: toBox(within(around(plan.pieces.map((piece) => piece.bleed)) ?? sheet, sheet), plan),
    trim: toBox(within(around(plan.pieces.map((piece) => piece.trim)) ?? sheet, sheet), plan),
  };
}

function toBox(rect: RectMm, plan: SheetPlan): Box {
  const leftMm = plan.mirrorOnWriting ? plan.widthMm - rect.xMm - rect.widthMm : rect.xMm;
  const bottomMm = plan.heightMm - rect.yMm - rect.heightMm;
  return [
    mmToPoints(leftMm),
    mmToPoints(bottomMm),
    mmToPoints(leftMm + rect.widthMm),
    mmToPoints(bottomMm + rect.heightMm),
  ];
}

function around(rects: readonly RectMm[]): RectMm | null {
  if (rects.length === 0) return null;
  const xMm = Math.min(...rects.map((rect) => rect.xMm));
  const yMm = Math.min(...rects.map((rect) => rect.yMm));
  const right = Math.max(...rects.map((rect) => rect.xMm + rect.widthMm));
  const bottom = Math.max(...rects.map((rect) => rect.yMm + rect.heightMm));
  return { xMm, yMm, widthMm: right - xMm, heightMm: bottom - yMm };
}

function within(rect: RectMm, limit: RectMm): RectMm {
  const xMm = Math.max(rect.xMm, limit.xMm);
  const yMm = Math.max(rect.yMm, limit.yMm);
  const right = Math.min(rect.xMm + rect.widthMm, limit.xMm + limit.widthMm);
  const bottom = Math.min(rect.yMm + rect.heightMm, limit.yMm + limit.heightMm);
  return { xMm, yMm, widthMm: right - xMm, heightMm: bottom - yMm };
}
