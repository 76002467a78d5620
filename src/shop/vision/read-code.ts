import { type BinaryBitmap, BitMatrix, DecodeHintType, QRCodeReader } from '@zxing/library';
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

/**
 * The code that stands beside the top left marker: to its right in some frames, below it in others. Its modules
 * are read one by one where they must be, and the decoder is left with its errors to mend.
 */
export function readCodeBeside(picture: GreyPicture, topLeft: FoundMarker): SheetCode | null {
  const start = 1 + qrGapInMarkers;
  for (const [left, top] of [
    [start, 0],
    [0, start],
  ] as const) {
    const corners = besideMarker(topLeft, left, top);
    for (const cells of corners ? readCodeGrid(picture, corners) : []) {
      const code = decodeCells(cells);
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

function decodeCells(cells: readonly boolean[]): SheetCode | null {
  // One pixel a module, in the white that the reader wants to see round it.
  const matrix = new BitMatrix(qrModules + 2);
  cells.forEach((dark, i) => {
    if (dark) matrix.set((i % qrModules) + 1, Math.floor(i / qrModules) + 1);
  });
  try {
    const hints = new Map([[DecodeHintType.PURE_BARCODE, true]]);
    const result = new QRCodeReader().decode({ getBlackMatrix: () => matrix } as BinaryBitmap, hints);
    return readSheetCode(result.getText());
  } catch {
    // The library throws whenever a code cannot be mended.
    return null;
  }
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
