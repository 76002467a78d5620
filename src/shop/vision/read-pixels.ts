import {
  judge,
  measureSize,
  type PictureFacts,
  poseOfSheet,
  type ReadSubject,
  type RgbPicture,
  readRouteStrip,
  type SheetReading,
} from '#craft/reading';
import { frameOfCode } from '#craft/sheet';
import { findSheet } from './find-sheet.js';
import { GreySource } from './grey.js';
import type { OpenCv } from './open-cv.js';

export interface PixelTask {
  readonly picture: RgbPicture;
  readonly facts: PictureFacts;
  readonly fileFlipped: boolean;
  readonly subject: ReadSubject;
}

export type PixelAnswer =
  | { readonly reading: SheetReading }
  | { readonly reading: null; readonly why: 'nothing' | 'too-little' }
  | { readonly reading: null; readonly why: 'several'; readonly sheetIds: readonly string[] };

/** From a decoded picture to the verdict. */
export function readPixels(cv: OpenCv, { picture, facts, fileFlipped, subject }: PixelTask): PixelAnswer {
  const finding = findSheet(cv, new GreySource(picture));
  if (!finding.sheet) {
    const { sheet, ...rest } = finding;
    return { reading: sheet, ...rest };
  }
  const { code, markers, mirrored, anchor } = finding.sheet;
  const frame = code ? frameOfCode(code) : null;
  const pose = frame ? poseOfSheet(frame, markers, anchor ?? undefined) : null;
  if (frame && markers.length > 0 && pose && pose.seenMirrored !== mirrored) {
    // Markers read in one way but lie in the other: something is false, so nothing is said.
    return { reading: null, why: 'too-little' };
  }
  const reading = judge({
    subject,
    sheetId: code?.sheetId ?? null,
    fileMirrored: code?.mirrorOnWriting ?? null,
    seenMirrored: mirrored,
    size: pose ? measureSize(pose, facts) : { known: false, why: code ? 'too-few-marks' : 'no-code' },
    markersFound: pose ? pose.markersUsed.length : markers.length,
    markersExpected: frame?.markers.length ?? 4,
    routeStrip:
      frame && pose && pose.markersUsed.length > 1 ? readRouteStrip(picture, frame, pose.toPicture) : [],
    fileFlipped,
  });
  return { reading };
}
