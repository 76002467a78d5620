import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ThreadPool } from '#shop/threads';
import type { PixelAnswer, PixelTask } from './read-pixels.js';

/** The built worker; the package root is as far up from src/shop/vision as from dist/shop/vision. */
const packageRoot = path.resolve(import.meta.dirname, '../../..');

const pool = new ThreadPool({
  workerFile: pathToFileURL(path.join(packageRoot, 'dist/shop/vision/worker.js')).href,
  maxThreads: 1,
  // OpenCV takes a second to load and keeps its memory, so the one thread stays a while, then goes.
  idleMilliseconds: 60_000,
  doing: 'Reading the picture',
});

export function readInThread(task: PixelTask, signal: AbortSignal | undefined): Promise<PixelAnswer> {
  return pool.run(task, { transferList: [task.picture.data.buffer as ArrayBuffer], signal });
}

/** End the thread; for an orderly end of the program. A later reading starts it anew. */
export function closeVision(): Promise<void> {
  return pool.close();
}
