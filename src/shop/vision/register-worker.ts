import type { AlignedPair } from '#craft/register';
import { threadWork } from '#shop/threads';
import { loadOpenCv } from './open-cv.js';
import { openScan } from './open-picture.js';
import { type RegisterTask, registerPixels } from './register-pixels.js';

export interface RegisterFiles extends RegisterTask {
  readonly artwork: string | Uint8Array;
  readonly photo: string | Uint8Array;
  readonly pixelLimit: number;
}

/** A worker thread's whole work: one photo and its artwork, from their files. */
export default threadWork(async (task: RegisterFiles): Promise<AlignedPair> => {
  const [photo, artwork, { cv }] = await Promise.all([
    openScan(task.photo, task.pixelLimit),
    openScan(task.artwork, task.pixelLimit),
    loadOpenCv(),
  ]);
  return registerPixels(cv, artwork.picture, photo.picture, photo.scale, task);
});
