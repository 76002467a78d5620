import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { AlignedPair } from '#craft/register';
import { ThreadPool } from '#shop/threads';
import type { ChartDone, ChartTask } from './chart-worker.js';
import type { PressDone, PressTask } from './press-worker.js';
import type { PixelAnswer } from './read-pixels.js';
import type { RegisterFiles } from './register-worker.js';
import type { SheetTask } from './worker.js';

/** The built workers; the package root is as far up from src/shop/vision as from dist/shop/vision. */
const packageRoot = path.resolve(import.meta.dirname, '../../..');

/** One thread for each kind of picture: OpenCV takes a second to load and keeps its memory, so it stays a while, then goes. */
const pool = (worker: string) =>
  new ThreadPool({
    workerFile: pathToFileURL(path.join(packageRoot, 'dist/shop/vision', worker)).href,
    maxThreads: 1,
    idleMilliseconds: 60_000,
    doing: 'Reading the picture',
  });
const sheets = pool('worker.js');
const charts = pool('chart-worker.js');
const presses = pool('press-worker.js');
const registers = pool('register-worker.js');

export function readInThread(task: SheetTask, signal: AbortSignal | undefined): Promise<PixelAnswer> {
  return sheets.run(task, { signal });
}

export function readChartInThread(task: ChartTask, signal: AbortSignal | undefined): Promise<ChartDone> {
  return charts.run(task, { signal });
}

export function readPressInThread(task: PressTask, signal: AbortSignal | undefined): Promise<PressDone> {
  return presses.run(task, { signal });
}

export function registerInThread(task: RegisterFiles, signal: AbortSignal | undefined): Promise<AlignedPair> {
  return registers.run(task, { signal });
}

/** End the threads; for an orderly end of the program. A later reading starts them anew. */
export async function closeVision(): Promise<void> {
  await Promise.all([sheets.close(), charts.close(), presses.close(), registers.close()]);
}
