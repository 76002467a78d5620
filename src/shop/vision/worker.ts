import { threadWork } from '#shop/threads';
import { loadOpenCv } from './open-cv.js';
import { type PixelTask, readPixels } from './read-pixels.js';

/** A worker thread's whole work: one picture. */
export default threadWork(async (task: PixelTask) => {
  const { cv } = await loadOpenCv();
  return readPixels(cv, task);
});
