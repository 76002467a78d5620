import { loadOpenCv } from './open-cv.js';
import { type PixelAnswer, type PixelTask, readPixels } from './read-pixels.js';

/** A worker thread's whole work: one picture. */
export default async function readInWorker(task: PixelTask): Promise<PixelAnswer> {
  const { cv } = await loadOpenCv();
  return readPixels(cv, task);
}
