import type { MendPixels } from '#craft/icc';
import type { Kernel } from '#kernels';
import { clipSpan, type Span } from '../geometry/clip.js';
import type { TurnedBox } from '../resample/raster.js';
import type { BandJob, BandPiece } from './band-job.js';
import { drawMarks } from './draw-marks.js';
import { mirrorRows } from './mirror.js';
import { RasterReader } from './raster-reader.js';
import type { Samples } from './samples.js';

export interface KernelsOfJob {
  readonly kernel: Kernel;
  readonly proof: Kernel | null;
  readonly mend: MendPixels | null;
}

/**
 * Rows `top` to `top + rows` of a sheet as device RGB, as they are written: paper, then pieces, then marks, all
 * reading the right way, then mirrored once if the sheet is.
 */
export function composeBand(job: BandJob, kernels: KernelsOfJob, top: number, rows: number): Samples {
  const length = job.width * rows * 3;
  const band = job.outBits === 8 ? new Uint8Array(length).fill(255) : new Uint16Array(length).fill(65535);
  const readers = new Map<number, RasterReader>();
  try {
    for (const piece of job.pieces) {
      if (piece.raster === null) continue;
      if (piece.box.top >= top + rows || piece.box.top + piece.box.height <= top) continue;
      let reader = readers.get(piece.raster);
      if (reader === undefined) {
        reader = new RasterReader(job.rasters[piece.raster]!, job.workBits);
        readers.set(piece.raster, reader);
      }
      drawPiece(job, piece, reader, kernels, band, top, rows);
    }
  } finally {
    for (const reader of readers.values()) reader.close();
  }
  drawMarks(job, band, top, rows);
  if (kernels.proof !== null) applyInPlace(kernels.proof, band, job.proof!.slotPixels);
  if (job.mirror) mirrorRows(band, job.width, rows);
  return band;
}

function drawPiece(
  job: BandJob,
  piece: BandPiece,
  reader: RasterReader,
  { kernel, mend }: KernelsOfJob,
  band: Samples,
  bandTop: number,
  bandRows: number,
): void {
  const { raster } = reader;
  const { box, form } = piece;
  const rasterTop = box.top + raster.top;
  const from = Math.max(bandTop, box.top, rasterTop, 0);
  const to = Math.min(bandTop + bandRows, box.top + box.height, rasterTop + raster.height, job.height);
  const rowsAtOnce = Math.max(1, Math.floor(job.arena.slotPixels / raster.width));
  for (let y = from; y < to; y += rowsAtOnce) {
    const count = Math.min(rowsAtOnce, to - y);
    reader.read(y - rasterTop, count, kernel.input);
    kernel.run(count * raster.width);
    mend?.(kernel.input, kernel.output, count * raster.width);
    for (let row = 0; row < count; row += 1) {
      const inBox = y + row - box.top;
      let span = clipSpan(form, box.width, box.height, inBox);
      span = meet(span, { from: raster.left, to: raster.left + raster.width });
      if (raster.cover !== null) span = meet(span, coverSpan(raster.cover, inBox));
      // What lies beyond the sheet's own edge is not printed.
      const onSheet = { from: -box.left, to: job.width - box.left };
      span = meet(span, piece.leftForRight ? reversed(onSheet, box.width) : onSheet);
      if (span.to <= span.from) continue;
      const source = (row * raster.width + span.from - raster.left) * 3;
      const left = piece.leftForRight ? box.width - span.to : span.from;
      const target = ((y + row - bandTop) * job.width + box.left + left) * 3;
      const pixels = span.to - span.from;
      copySamples(kernel.output, source, band, target, pixels * 3);
      if (piece.leftForRight) mirrorRows(band.subarray(target, target + pixels * 3), pixels, 1);
    }
  }
}

/** The same columns counted from the box's right edge. */
const reversed = (span: Span, width: number): Span => ({ from: width - span.to, to: width - span.from });

function meet(a: Span, b: Span): Span {
  return { from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) };
}

/** The pixels of a row whose centres lie inside a turned rectangle: two linear bounds on x. */
function coverSpan(cover: TurnedBox, y: number): Span {
  const dy = y + 0.5 - cover.centreY;
  let from = -Infinity;
  let to = Infinity;
  // |dx·cos + dy·sin| ≤ halfWidth and |−dx·sin + dy·cos| ≤ halfHeight
  for (const [slope, offset, half] of [
    [cover.cos, dy * cover.sin, cover.halfWidth],
    [-cover.sin, dy * cover.cos, cover.halfHeight],
  ] as const) {
    const a = (-half - offset) / slope;
    const b = (half - offset) / slope;
    from = Math.max(from, Math.min(a, b));
    to = Math.min(to, Math.max(a, b));
  }
  return {
    from: Math.ceil(cover.centreX + from - 0.5),
    to: Math.floor(cover.centreX + to - 0.5) + 1,
  };
}

function copySamples(source: Samples, at: number, band: Samples, target: number, count: number): void {
  if (source.BYTES_PER_ELEMENT === band.BYTES_PER_ELEMENT) {
    band.set(source.subarray(at, at + count), target);
    return;
  }
  // 16 → 8 bit: 65535 = 255 · 257, so this is exact rounding.
  for (let index = 0; index < count; index += 1)
    band[target + index] = ((source[at + index]! + 128) / 257) | 0;
}

function applyInPlace(kernel: Kernel, band: Samples, slotPixels: number): void {
  const pixels = band.length / 3;
  for (let at = 0; at < pixels; at += slotPixels) {
    const count = Math.min(slotPixels, pixels - at);
    kernel.input.set(band.subarray(at * 3, (at + count) * 3));
    kernel.run(count);
    band.set(kernel.output.subarray(0, count * 3), at * 3);
  }
}
