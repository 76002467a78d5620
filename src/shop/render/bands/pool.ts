import { availableParallelism } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ThreadPool } from '#shop/threads';
import type { TurnTask } from '../resample/turn-rows.js';
import type { BandTask, EncodedBand } from './band-job.js';

/** The built worker; the package root is as far up from src/shop/render/bands as from dist/shop/render/bands. */
const packageRoot = path.resolve(import.meta.dirname, '../../../..');
const mostThreads = 4;

/** All sheets made at the same time share one pool of threads. */
const pool = new ThreadPool({
  workerFile: pathToFileURL(path.join(packageRoot, 'dist/shop/render/bands/worker.js')).href,
  maxThreads: defaultWorkers(),
  idleMilliseconds: 30_000,
  doing: 'Drawing the sheet',
  // Young-generation garbage of finished bands would else be kept for a while in each thread.
  resourceLimits: { maxYoungGenerationSizeMb: 16 },
});

export function defaultWorkers(): number {
  return Math.max(1, Math.min(mostThreads, availableParallelism()));
}

/** Have one band made. */
export function runBand(task: BandTask): Promise<EncodedBand> {
  return pool.run(task);
}

/** Have some rows turned, by the same threads. */
export function runTurn(task: TurnTask): Promise<void> {
  return pool.run(task, { name: 'turn' });
}

/** End the threads; for an orderly end of the program. A later sheet starts them anew. */
export function closeRenderWorkers(): Promise<void> {
  return pool.close();
}
