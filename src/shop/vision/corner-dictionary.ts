import { cornerMarkerCells, cornerMarkerIds, markerCells } from '#craft/sheet';
import type { MarkerDictionary, OpenCv } from './open-cv.js';

const ids: readonly number[] = Object.values(cornerMarkerIds);

/** What a pattern of the dictionary stands for. */
export interface CornerPattern {
  readonly id: number;
  readonly mirrored: boolean;
}

/** In the dictionary's order: our markers as they read, then as seen in a mirror. */
export const cornerPatterns: readonly CornerPattern[] = [false, true].flatMap((mirrored) =>
  ids.map((id) => ({ id, mirrored })),
);

const inner = markerCells - 2;

/**
 * Our corner markers, as they read and as seen in a mirror, as a dictionary of OpenCV's: one look at a picture finds
 * both. They differ in six cells and more (see `cornerMarkerIds`), so neither is taken for the other. To be deleted by
 * the caller.
 */
export function cornerDictionary(cv: OpenCv): MarkerDictionary {
  const rows = cornerPatterns.map(dictionaryRow);
  // Two bytes for each of four turns, in Mat's words two columns of four channels.
  const list = new cv.Mat(rows.length, 2, cv.CV_8UC4);
  list.data.set(rows.flat());
  const predefined = cv.getPredefinedDictionary(cv.DICT_4X4_50);
  try {
    return new cv.aruco_Dictionary(list, inner, predefined.maxCorrectionBits);
  } finally {
    for (const one of [list, predefined]) one.delete();
  }
}

/**
 * A pattern as OpenCV's dictionaries hold it (cv::aruco::Dictionary::getByteListFromBits): its 16 inner cells, white
 * as 1, read in rows for each of the four turns.
 */
export function dictionaryRow({ id, mirrored }: CornerPattern): number[] {
  const cells = cornerMarkerCells(id);
  const last = inner - 1;
  const white = (row: number, column: number): number =>
    cells[(1 + row) * markerCells + 1 + (mirrored ? last - column : column)] ? 0 : 1;
  const turns = [
    (r: number, c: number) => white(r, c),
    (r: number, c: number) => white(c, last - r),
    (r: number, c: number) => white(last - r, last - c),
    (r: number, c: number) => white(last - c, r),
  ];
  return turns.flatMap((at) => {
    let bits = 0;
    for (let i = 0; i < inner * inner; i += 1) bits = (bits << 1) | at(Math.floor(i / inner), i % inner);
    return [bits >> 8, bits & 255];
  });
}
