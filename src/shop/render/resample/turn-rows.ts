import { closeSync, openSync, readSync, writeSync } from 'node:fs';

/** Rows `top`… of a picture turned clockwise by whole quarters, from one file of plain pixels to another. */
export interface TurnTask {
  readonly from: {
    readonly path: string;
    readonly dataOffset: number;
    readonly width: number;
    readonly height: number;
  };
  readonly to: string;
  readonly pixelBytes: number;
  readonly quarters: 1 | 2 | 3;
  readonly top: number;
  readonly rows: number;
}

/** The turned picture's width and height. */
export function turnedSize(
  width: number,
  height: number,
  quarters: 1 | 2 | 3,
): { width: number; height: number } {
  return quarters === 2 ? { width, height } : { width: height, height: width };
}

/**
 * Turn some rows. libvips would hold the whole picture in memory for this; here only the rows being made are, and
 * the strip of the source they come from is read piece by piece.
 */
export function turnRows(task: TurnTask): void {
  const { from, quarters, pixelBytes, top, rows } = task;
  const { width } = turnedSize(from.width, from.height, quarters);
  const out = new Uint8Array(width * rows * pixelBytes);
  const source = openSync(from.path, 'r');
  const target = openSync(task.to, 'r+');
  try {
    const take = quarters === 2 ? from.width : rows;
    const piece = new Uint8Array(take * pixelBytes);
    if (quarters === 2) {
      for (let row = 0; row < rows; row += 1) {
        readAll(source, piece, from.dataOffset + (from.height - 1 - top - row) * from.width * pixelBytes);
        placePixels(piece, out, ((row + 1) * width - 1) * pixelBytes, -pixelBytes, pixelBytes);
      }
    } else {
      // Clockwise, source row v becomes column (height − 1 − v); anticlockwise it becomes column v, from below.
      const u = quarters === 1 ? top : from.width - top - rows;
      for (let v = 0; v < from.height; v += 1) {
        readAll(source, piece, from.dataOffset + (v * from.width + u) * pixelBytes);
        const column = quarters === 1 ? from.height - 1 - v : v;
        const firstRow = quarters === 1 ? 0 : rows - 1;
        const step = quarters === 1 ? width : -width;
        placePixels(piece, out, (firstRow * width + column) * pixelBytes, step * pixelBytes, pixelBytes);
      }
    }
    writeAll(target, out, top * width * pixelBytes);
  } finally {
    closeSync(source);
    closeSync(target);
  }
}

/** The pixels of `piece` one after another to `out`, `step` bytes apart. */
function placePixels(
  piece: Uint8Array,
  out: Uint8Array,
  start: number,
  step: number,
  pixelBytes: number,
): void {
  let to = start;
  for (let at = 0; at < piece.length; at += pixelBytes) {
    for (let byte = 0; byte < pixelBytes; byte += 1) out[to + byte] = piece[at + byte]!;
    to += step;
  }
}

function readAll(fd: number, bytes: Uint8Array, position: number): void {
  let done = 0;
  while (done < bytes.length) {
    const got = readSync(fd, bytes, done, bytes.length - done, position + done);
    if (got === 0) throw new Error('the resampled picture is shorter than it should be');
    done += got;
  }
}

function writeAll(fd: number, bytes: Uint8Array, position: number): void {
  let done = 0;
  while (done < bytes.length) done += writeSync(fd, bytes, done, bytes.length - done, position + done);
}
