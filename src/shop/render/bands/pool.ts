import { availableParallelism } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { Piscina } from 'piscina';
import type { BandTask, EncodedBand } from './band-job.js';

/** The built worker; the package root is as far up from src/shop/render/bands as from dist/shop/render/bands. */
const packageRoot = path.resolve(import.meta.dirname, '../../../..');
const workerFile = pathToFileURL(path.join(packageRoot, 'dist/shop/render/bands/worker.js')).href;

const mostThreads = 4;
/** Threads without work end after this, and give their memory back. */
const idleMilliseconds = 5_000;

let pool: Piscina<BandTask, EncodedBand> | null = null;

export function defaultWorkers(): number {
  return Math.max(1, Math.min(mostThreads, availableParallelism()));
}

/** One pool for the whole process: sheets made at the same time share its threads. */
export function bandPool(): Piscina<BandTask, EncodedBand> {
  pool ??= new Piscina({
    filename: workerFile,
    minThreads: 0,
    maxThreads: defaultWorkers(),
    idleTimeout: idleMilliseconds,
    concurrentTasksPerWorker: 1,
    // The built files run as built: flags that the host was started with (import conditions) are not theirs.
    execArgv: [],
    // Young-generation garbage of finished bands would else be kept for a while in each thread.
    resourceLimits: { maxYoungGenerationSizeMb: 16 },
  });
  return pool;
}

/** End the threads; for an orderly end of the program. A later sheet starts them anew. */
export async function closeRenderWorkers(): Promise<void> {
  const closing = pool;
  pool = null;
  await closing?.destroy();
}
