import {
  BinaryBitmap,
  BitMatrix,
  DecodeHintType,
  HybridBinarizer,
  QRCodeReader,
  RGBLuminanceSource,
} from '@zxing/library';
import {
  type FoundMarker,
  fitHomography,
  type GreyPicture,
  mapPoint,
  type Point,
  readCodeGrid,
} from '#craft/reading';
import { qrGapInMarkers, qrModules, qrSizeInMarkers, readSheetCode, type SheetCode } from '#craft/sheet';
import type { GreySource } from './grey.js';

/**
 * The code that stands beside the top left marker: to its right in some frames, below it in others. Its modules
 * are read one by one where they must be, and the decoder is left with its errors to mend.
 */
export function readCodeBeside(full: GreySource, topLeft: FoundMarker): SheetCode | null {
  return readBeside(full, topLeft, readSheetCode);
}

/** The same for codes that say something else. @param parse null when the text is not what is looked for */
export function readBeside<Code>(
  full: GreySource,
  topLeft: FoundMarker,
  parse: (text: string) => Code | null,
): Code | null {
  const start = 1 + qrGapInMarkers;
  for (const [left, top] of [
    [start, 0],
    [0, start],
  ] as const) {
    const corners = besideMarker(topLeft, left, top);
    for (const cells of corners ? cellsAt(full, corners) : []) {
      const code = decodeCells(cells, parse);
      if (code) return code;
    }
  }
  return null;
}

/** Looked at round the place where the code should be, in shares of its side: it may be a little off. */
const round = 0.5;

function cellsAt(full: GreySource, corners: readonly Point[]): boolean[][] {
  const xs = corners.map(({ x }) => x);
  const ys = corners.map(({ y }) => y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const more = round * Math.max(right - left, bottom - top);
  const part = full.window(left - more, top - more, right + more, bottom + more);
  return readCodeGrid(
    part.grey,
    corners.map(({ x, y }) => ({ x: x - part.left, y: y - part.top })),
  );
}

/** A code anywhere in the picture, either way round. For pictures whose top left marker is cut off or spoilt. */
export function readCodeAnywhere({
  width,
  height,
  data,
}: GreyPicture): { readonly code: SheetCode; readonly mirrored: boolean } | null {
  try {
    const light = new RGBLuminanceSource(new Uint8ClampedArray(data), width, height);
    const result = new QRCodeReader().decode(new BinaryBitmap(new HybridBinarizer(light)));
    const code = readSheetCode(result.getText());
    // The finder patterns' centres as the code reads: bottom left, top left, top right. The library also reads
    // mirrored codes (ISO/IEC 18004 allows them); then these three turn the other way.
    const [bottomLeft, topLeft, topRight] = result.getResultPoints();
    if (!code || !bottomLeft || !topLeft || !topRight) return null;
    const cross =
      (topRight.getX() - topLeft.getX()) * (bottomLeft.getY() - topLeft.getY()) -
      (topRight.getY() - topLeft.getY()) * (bottomLeft.getX() - topLeft.getX());
    return { code, mirrored: cross < 0 };
  } catch {
    // The library throws whenever there is no code or it cannot be mended.
    return null;
  }
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

function decodeCells<Code>(cells: readonly boolean[], parse: (text: string) => Code | null): Code | null {
  // One pixel a module, in the white that the reader wants to see round it.
  const matrix = new BitMatrix(qrModules + 2);
  cells.forEach((dark, i) => {
    if (dark) matrix.set((i % qrModules) + 1, Math.floor(i / qrModules) + 1);
  });
  try {
    const hints = new Map([[DecodeHintType.PURE_BARCODE, true]]);
    const result = new QRCodeReader().decode({ getBlackMatrix: () => matrix } as BinaryBitmap, hints);
    return parse(result.getText());
  } catch {
    // The library throws whenever a code cannot be mended.
    return null;
  }
}
