import { type HealthOptions, type HealthReading, readHealth } from '#craft/healthreading';
import type { SampledPicture } from '#craft/patchreading';
import { isProblem } from '#craft/problem';
import { poseOfSheet } from '#craft/reading';
import { type HealthSheetOrder, planHealthSheet } from '#craft/testsheet';
import { findSheet } from './find-sheet.js';
import { GreySource } from './grey.js';
import type { OpenCv } from './open-cv.js';
import type { Refusal } from './read-press-pixels.js';

export type HealthAnswer =
  | { readonly kind: 'read'; readonly reading: HealthReading }
  | { readonly kind: 'no-sheet'; readonly sheetIds: readonly string[] }
  | { readonly kind: 'refused'; readonly refusal: Refusal };

/** A health sheet in a decoded picture. @param order what it was made from */
export function readHealthPixels(
  cv: OpenCv,
  picture: SampledPicture,
  order: HealthSheetOrder,
  options: HealthOptions = {},
): HealthAnswer {
  const { sheet, ...why } = findSheet(cv, new GreySource(picture));
  if (!sheet) return { kind: 'no-sheet', sheetIds: 'sheetIds' in why ? why.sheetIds : [] };
  const { code, markers, mirrored, anchor } = sheet;
  if (code && code.sheetId !== order.sheetId) return { kind: 'no-sheet', sheetIds: [code.sheetId] };
  try {
    const { layout } = planHealthSheet(code ? { ...order, variant: code.variant } : order);
    const pose = poseOfSheet(layout.frame, markers, anchor ?? undefined);
    if (!pose || pose.seenMirrored !== mirrored) return { kind: 'no-sheet', sheetIds: [] };
    return { kind: 'read', reading: readHealth(picture, layout, pose, options) };
  } catch (error) {
    if (!isProblem(error)) throw error;
    const { code: problem, message, remedy } = error;
    return { kind: 'refused', refusal: { code: problem, message, remedy } };
  }
}
