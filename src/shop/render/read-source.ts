import type { BandJob } from './bands/band-job.js';
import { RasterReader } from './bands/raster-reader.js';
import { clipSpan } from './geometry/clip.js';

/** The artwork's own numbers under the job's first piece, 8 bit, white where no artwork lies. */
export function readSource(job: BandJob, channels: 1 | 3 | 4): Uint8Array {
  const pixels = job.width * job.height;
  const out = new Uint8Array(pixels * channels).fill(channels === 4 ? 0 : 255);
  const piece = job.pieces[0];
  if (piece === undefined || piece.raster === null) return out;
  const reader = new RasterReader(job.rasters[piece.raster]!, 8);
  try {
    const { raster } = reader;
    const row = new Uint8Array(raster.width * channels);
    for (let y = 0; y < raster.height; y += 1) {
      const target = piece.box.top + raster.top + y;
      if (target < 0 || target >= job.height) continue;
      reader.read(y, 1, row);
      const span = clipSpan(piece.form, piece.box.width, piece.box.height, raster.top + y);
      const from = Math.max(0, raster.left, span.from);
      const to = Math.min(job.width, raster.left + raster.width, span.to);
      if (to <= from) continue;
      out.set(
        row.subarray((from - raster.left) * channels, (to - raster.left) * channels),
        (target * job.width + from) * channels,
      );
    }
  } finally {
    reader.close();
  }
  return out;
}
