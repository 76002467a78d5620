import { type FoundMarker, fitHomography, type GreyPicture, type PlaneMap } from '#craft/reading';
import { qrGapInMarkers, qrModules, qrSizeInMarkers, readSheetCode, type SheetCode } from '#craft/sheet';
import { flipped, straightened } from './grey.js';
import type { OpenCv } from './open-cv.js';

const pixelsPerModule = 8;
/** White kept round the code (ISO/IEC 18004 asks for four modules). */
const quietModules = 5;

/** The code that stands beside the top left marker: to its right in some frames, below it in others. */
export function readCodeBeside(cv: OpenCv, picture: GreyPicture, topLeft: FoundMarker): SheetCode | null {
  for (const [column, row] of [
    [1, 0],
    [0, 1],
  ] as const) {
    const start = 1 + qrGapInMarkers;
    const straight = codeMap(topLeft, column * start, row * start);
    if (!straight) continue;
    const side = (qrModules + 2 * quietModules) * pixelsPerModule;
    const code = decode(cv, straightened(picture, straight, side));
    if (code) return code;
  }
  return null;
}

/** A code anywhere in the picture. For pictures whose top left marker is cut off or spoilt. */
export function readCodeAnywhere(cv: OpenCv, picture: GreyPicture, mirrored: boolean): SheetCode | null {
  return decode(cv, mirrored ? flipped(picture) : picture);
}

/** From pixels of the straightened code to the picture, through the marker's four corners. */
function codeMap({ corners }: FoundMarker, left: number, top: number): PlaneMap | null {
  const perMarker = (qrModules * pixelsPerModule) / qrSizeInMarkers;
  const x0 = quietModules * pixelsPerModule - left * perMarker;
  const y0 = quietModules * pixelsPerModule - top * perMarker;
  const square = [
    { x: x0, y: y0 },
    { x: x0 + perMarker, y: y0 },
    { x: x0 + perMarker, y: y0 + perMarker },
    { x: x0, y: y0 + perMarker },
  ];
  return fitHomography(square.map((from, i) => ({ from, to: corners[i]! })));
}

function decode(cv: OpenCv, picture: GreyPicture): SheetCode | null {
  const mat = new cv.Mat(picture.height, picture.width, cv.CV_8UC1);
  mat.data.set(picture.data);
  const points = new cv.Mat();
  const detector = new cv.QRCodeDetector();
  try {
    return readSheetCode(detector.detectAndDecode(mat, points));
  } catch {
    // OpenCV throws a bare number when a code's corners make no sense.
    return null;
  } finally {
    for (const one of [mat, points, detector]) one.delete();
  }
}
