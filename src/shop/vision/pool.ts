import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { Piscina } from 'piscina';
import type { PixelAnswer, PixelTask } from './read-pixels.js';

/** The built worker; the package root is as far up from src/shop/vision as from dist/shop/vision. */
const packageRoot = path.resolve(import.meta.dirname, '../../..');
const workerFile = pathToFileURL(path.join(packageRoot, 'dist/shop/vision/worker.js')).href;

/** OpenCV takes a second to load and keeps its memory, so the one thread stays a while, then goes. */
const idleMilliseconds = 60_000;

let pool: Piscina<PixelTask, PixelAnswer> | null = null;

export function readInThread(task: PixelTask, signal: AbortSignal | undefined): Promise<PixelAnswer> {
  pool ??= new Piscina({
    filename: workerFile,
    minThreads: 0,
    maxThreads: 1,
    idleTimeout: idleMilliseconds,
    execArgv: [],
  });
  const transferList = [task.picture.data.buffer as ArrayBuffer];
  return pool.run(task, signal ? { transferList, signal } : { transferList });
}

/** End the thread; for an orderly end of the program. A later reading starts it anew. */
export async function closeVision(): Promise<void> {
  const closing = pool;
  pool = null;
  await closing?.destroy();
}
