import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { Piscina } from 'piscina';
import type { DeviceLink, IccProfile, ReachTable, TransformOptions } from '#craft/icc';

export type ColourTask =
  | { readonly kind: 'link'; readonly options: TransformOptions }
  | { readonly kind: 'proof'; readonly path: IccProfile }
  | { readonly kind: 'reach'; readonly options: TransformOptions };

/** The built worker; the package root is as far up from src/shop/sheets as from dist/shop/sheets. */
const packageRoot = path.resolve(import.meta.dirname, '../../..');
const workerFile = pathToFileURL(path.join(packageRoot, 'dist/shop/sheets/colour-worker.js')).href;
const idleMilliseconds = 10_000;

let pool: Piscina<ColourTask, DeviceLink | ReachTable> | null = null;

/** Runs in a thread; profiles and tables are plain data and are copied across. */
export function inColourThread(task: Extract<ColourTask, { kind: 'reach' }>): Promise<ReachTable>;
export function inColourThread(task: Extract<ColourTask, { kind: 'link' | 'proof' }>): Promise<DeviceLink>;
export function inColourThread(task: ColourTask): Promise<DeviceLink | ReachTable> {
  pool ??= new Piscina({
    filename: workerFile,
    minThreads: 0,
    maxThreads: 2,
    idleTimeout: idleMilliseconds,
    // Flags of the program (a test runner's import conditions) are not the thread's.
    execArgv: [],
  });
  return pool.run(task);
}

/** Ends the threads; for an orderly end of the program. Later work starts them anew. */
export async function closeColourThreads(): Promise<void> {
  const closing = pool;
  pool = null;
  await closing?.destroy();
}
