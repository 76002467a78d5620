import path from 'node:path';
import { pathToFileURL } from 'node:url';
import type { DeviceLink, IccProfile, ReachTable, TransformOptions } from '#craft/icc';
import { ThreadPool } from '#shop/threads';

export type ColourTask =
  | { readonly kind: 'link'; readonly options: TransformOptions }
  | { readonly kind: 'proof'; readonly path: IccProfile }
  | { readonly kind: 'reach'; readonly options: TransformOptions };

/** The built worker; the package root is as far up from src/shop/sheets as from dist/shop/sheets. */
const packageRoot = path.resolve(import.meta.dirname, '../../..');

const pool = new ThreadPool({
  workerFile: pathToFileURL(path.join(packageRoot, 'dist/shop/sheets/colour-worker.js')).href,
  maxThreads: 2,
  idleMilliseconds: 10_000,
  doing: 'Working the colour out',
});

/** Runs in a thread; profiles and tables are plain data and are copied across. */
export function inColourThread(task: Extract<ColourTask, { kind: 'reach' }>): Promise<ReachTable>;
export function inColourThread(task: Extract<ColourTask, { kind: 'link' | 'proof' }>): Promise<DeviceLink>;
export function inColourThread(task: ColourTask): Promise<DeviceLink | ReachTable> {
  return pool.run(task);
}

/** Ends the threads; for an orderly end of the program. Later work starts them anew. */
export function closeColourThreads(): Promise<void> {
  return pool.close();
}
