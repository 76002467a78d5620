import type { BandJob } from './band-job.js';
import type { Samples } from './samples.js';

/** Draw the rows of every mark that falls into a band. Marks are device RGB: no colour path touches them. */
export function drawMarks(job: BandJob, band: Samples, top: number, rows: number): void {
  const scale = job.outBits === 8 ? 1 : 257;
  for (const { left, top: fillTop, right, bottom, rgb } of job.fills) {
    const y0 = Math.max(top, fillTop, 0);
    const y1 = Math.min(top + rows, bottom);
    const x0 = Math.max(0, left);
    const x1 = Math.min(job.width, right);
    for (let y = y0; y < y1; y += 1) {
      let at = ((y - top) * job.width + x0) * 3;
      for (let x = x0; x < x1; x += 1) {
        band[at] = rgb[0] * scale;
        band[at + 1] = rgb[1] * scale;
        band[at + 2] = rgb[2] * scale;
        at += 3;
      }
    }
  }
  for (const mask of job.texts) {
    const y0 = Math.max(top, mask.top, 0);
    const y1 = Math.min(top + rows, mask.top + mask.height);
    const x0 = Math.max(0, mask.left);
    const x1 = Math.min(job.width, mask.left + mask.width);
    for (let y = y0; y < y1; y += 1) {
      const maskRow = (y - mask.top) * mask.width - mask.left;
      let at = ((y - top) * job.width + x0) * 3;
      for (let x = x0; x < x1; x += 1, at += 3) {
        const ink = mask.coverage[maskRow + x]!;
        if (ink === 0) continue;
        const left = (255 - ink) / 255;
        band[at] = Math.round(band[at]! * left);
        band[at + 1] = Math.round(band[at + 1]! * left);
        band[at + 2] = Math.round(band[at + 2]! * left);
      }
    }
  }
}
