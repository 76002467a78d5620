import { type ChartReading, readChart, type SampledPicture } from '#craft/patchreading';
import { isProblem, type ProblemCode } from '#craft/problem';
import { poseOfSheet } from '#craft/reading';
import type { SheetCode } from '#craft/sheet';
import {
  type ChartLayout,
  type ColourSheetOrder,
  colourSheetOfCode,
  planColourSheet,
} from '#craft/testsheet';
import { findSheet } from './find-sheet.js';
import { GreySource } from './grey.js';
import type { OpenCv } from './open-cv.js';

export type ChartAnswer =
  | { readonly kind: 'read'; readonly reading: ChartReading; readonly layout: ChartLayout }
  | { readonly kind: 'no-sheet'; readonly why: 'nothing' | 'too-little' | 'no-code' }
  | { readonly kind: 'several-sheets'; readonly sheetIds: readonly string[] }
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

/**
 * From a decoded picture to the patches' values.
 * @param order what the sheet is made from, when the shop knows; else the sheet's own code must say
 */
export function readChartPixels(
  cv: OpenCv,
  picture: SampledPicture,
  order: ColourSheetOrder | null,
): ChartAnswer {
  const finding = findSheet(cv, new GreySource(picture));
  if (!finding.sheet) {
    return finding.why === 'several'
      ? { kind: 'several-sheets', sheetIds: finding.sheetIds }
      : { kind: 'no-sheet', why: finding.why };
  }
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
  if (!order) return code ? layoutOfCode(code) : null;
  return planColourSheet(code ? { ...order, variant: code.variant } : order).layout;
}

/** Sheets are often read twice, as paper and as piece, or again after cleaning the glass. */
const mostKept = 6;
const kept = new Map<string, ChartLayout | null>();

function layoutOfCode(code: SheetCode): ChartLayout | null {
  const name = JSON.stringify(code);
  const layout = kept.get(name) ?? colourSheetOfCode(code)?.layout ?? null;
  kept.delete(name);
  kept.set(name, layout);
  if (kept.size > mostKept) kept.delete(kept.keys().next().value!);
  return layout;
}
