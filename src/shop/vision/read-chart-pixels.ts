import { type ChartReading, readChart, type SampledPicture } from '#craft/patchreading';
import { isProblem, type ProblemCode } from '#craft/problem';
import { type GreyPicture, poseOfSheet } from '#craft/reading';
import type { SheetCode } from '#craft/sheet';
import {
  type ChartLayout,
  type ColourSheetOrder,
  colourSheetOfCode,
  planColourSheet,
} from '#craft/testsheet';
import { findSheet } from './find-sheet.js';
import type { OpenCv } from './open-cv.js';

export interface ChartTask {
  readonly picture: SampledPicture;
  /** What the sheet is made from, when the shop knows; else the sheet's own code must say. */
  readonly order: ColourSheetOrder | null;
}

export type ChartAnswer =
  | { readonly kind: 'read'; readonly reading: ChartReading; readonly layout: ChartLayout }
  | { readonly kind: 'no-sheet'; readonly why: 'nothing' | 'several' | 'too-little' | 'no-code' }
  | { readonly kind: 'other-sheet'; readonly sheetId: string }
  /** A sheet was found, but its code alone does not tell its patches. */
  | { readonly kind: 'unknown-sheet'; readonly sheetId: string }
  | {
      readonly kind: 'refused';
      readonly code: ProblemCode;
      readonly message: string;
      readonly remedy: string;
      readonly where: string | undefined;
    };

/** From a decoded picture to the patches' values, all in one thread. */
export function readChartPixels(cv: OpenCv, { picture, order }: ChartTask): ChartAnswer {
  const finding = findSheet(cv, greyOfSamples(picture));
  if (!finding.sheet) return { kind: 'no-sheet', why: finding.why };
  const { code, markers, mirrored, anchor } = finding.sheet;
  if (code && order && code.sheetId !== order.sheetId) return { kind: 'other-sheet', sheetId: code.sheetId };
  if (!code && !order) return { kind: 'no-sheet', why: 'no-code' };
  try {
    const layout = layoutOf(code, order);
    if (!layout) return { kind: 'unknown-sheet', sheetId: code?.sheetId ?? '' };
    const pose = poseOfSheet(layout.frame, markers, anchor ?? undefined);
    if (!pose || pose.seenMirrored !== mirrored) return { kind: 'no-sheet', why: 'too-little' };
    return { kind: 'read', reading: readChart(picture, layout, pose), layout };
  } catch (error) {
    if (!isProblem(error)) throw error;
    const { code: problem, message, remedy, where } = error;
    return { kind: 'refused', code: problem, message, remedy, where };
  }
}

/** The code knows best how the marks are arranged and how large the sheet is; the order knows the patches. */
function layoutOf(code: SheetCode | null, order: ColourSheetOrder | null): ChartLayout | null {
  if (!order) return code ? (colourSheetOfCode(code)?.layout ?? null) : null;
  return planColourSheet(code ? { ...order, variant: code.variant } : order).layout;
}

/** Luma of the samples as bytes (weights of ITU-R BT.601), for finding marks. */
function greyOfSamples({ width, height, data }: SampledPicture): GreyPicture {
  const grey = new Uint8Array(width * height);
  const shift = data instanceof Uint16Array ? 16 : 8;
  const round = 2 ** (shift - 1);
  for (let i = 0, at = 0; i < grey.length; i += 1, at += 3) {
    grey[i] = (data[at]! * 77 + data[at + 1]! * 150 + data[at + 2]! * 29 + round) >>> shift;
  }
  return { width, height, data: grey };
}
