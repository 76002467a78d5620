import {
  type FoundMarker,
  fitHomography,
  type GreyPicture,
  mapPoint,
  type Point,
  readCodeGrid,
} from '#craft/reading';
import { qrGapInMarkers, qrModules, qrSizeInMarkers, readSheetCode, type SheetCode } from '#craft/sheet';
import { flipped } from './grey.js';
import type { OpenCv } from './open-cv.js';

/** A clean code is drawn for the decoder with so many pixels a module… */
const pixelsPerModule = 6;
/** …and so much white round it (ISO/IEC 18004 asks for four modules). */
const quietModules = 4;

/**
 * The code that stands beside the top left marker: to its right in some frames, below it in others. Its modules
 * are read one by one where they must be and drawn afresh, so that the decoder is left only what it does best:
 * mending errors.
 */
export function readCodeBeside(cv: OpenCv, picture: GreyPicture, topLeft: FoundMarker): SheetCode | null {
  const start = 1 + qrGapInMarkers;
  for (const [left, top] of [
    [start, 0],
    [0, start],
  ] as const) {
    const corners = besideMarker(topLeft, left, top);
    for (const cells of corners ? readCodeGrid(picture, corners) : []) {
      const code = decode(cv, drawn(cells));
      if (code) return code;
    }
  }
  return null;
}

/** A code anywhere in the picture. For pictures whose top left marker is cut off or spoilt. */
export function readCodeAnywhere(cv: OpenCv, picture: GreyPicture, mirrored: boolean): SheetCode | null {
  return decode(cv, mirrored ? flipped(picture) : picture);
}

/** The code's corners, laid off from the marker's own in marker sides. */
function besideMarker({ corners }: FoundMarker, left: number, top: number): Point[] | null {
  const square = [
    { x: 0, y: 0 },
    { x: 1, y: 0 },
    { x: 1, y: 1 },
    { x: 0, y: 1 },
  ];
  const map = fitHomography(square.map((from, i) => ({ from, to: corners[i]! })));
  if (!map) return null;
  return square.map(({ x, y }) =>
    mapPoint(map, { x: left + x * qrSizeInMarkers, y: top + y * qrSizeInMarkers }),
  );
}

function drawn(cells: readonly boolean[]): GreyPicture {
  const side = (qrModules + 2 * quietModules) * pixelsPerModule;
  const data = new Uint8Array(side * side).fill(255);
  for (let y = 0; y < side; y += 1) {
    const row = Math.floor(y / pixelsPerModule) - quietModules;
    for (let x = 0; x < side; x += 1) {
      const column = Math.floor(x / pixelsPerModule) - quietModules;
      const inside = row >= 0 && column >= 0 && row < qrModules && column < qrModules;
      if (inside && cells[row * qrModules + column]) data[y * side + x] = 0;
    }
  }
  return { width: side, height: side, data };
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
