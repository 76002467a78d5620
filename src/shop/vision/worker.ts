import type { ReadSubject } from '#craft/reading';
import { threadWork } from '#shop/threads';
import { loadOpenCv } from './open-cv.js';
import { openScan } from './open-picture.js';
import { readPixels } from './read-pixels.js';

export interface SheetTask {
  readonly source: string | Uint8Array;
  readonly pixelLimit: number;
  readonly subject: ReadSubject;
  /** What the person says of it; stands above what the file says. */
  readonly scanPpi: number | undefined;
}

/** A worker thread's whole work: one picture of a sheet, from its file. */
export default threadWork(async ({ source, pixelLimit, subject, scanPpi }: SheetTask) => {
  // OpenCV loads while the picture is decoded.
  const [opened, { cv }] = await Promise.all([openScan(source, pixelLimit), loadOpenCv()]);
  const { picture, fileFlipped, scale } = opened;
  const facts = scanPpi === undefined ? opened.facts : { taggedPpi: scanPpi * scale, fromCamera: false };
  return readPixels(cv, { picture, facts, fileFlipped, subject });
});
