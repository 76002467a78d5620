import { availableParallelism } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { Piscina } from 'piscina';
import type { TurnTask } from '../resample/turn-rows.js';
import type { BandTask, EncodedBand } from './band-job.js';

/** The built worker; the package root is as far up from src/shop/render/bands as from dist/shop/render/bands. */
const packageRoot = path.resolve(import.meta.dirname, '../../../..');
const workerFile = pathToFileURL(path.join(packageRoot, 'dist/shop/render/bands/worker.js')).href;

const mostThreads = 4;
/** Threads without work end after this, and give their memory back. */
const idleMilliseconds = 30_000;

let pool: Piscina | null = null;
/** What to call for each band being made when the threads fail as such. */
const waiting = new Set<(error: unknown) => void>();

export function defaultWorkers(): number {
  return Math.max(1, Math.min(mostThreads, availableParallelism()));
}

/** Have one band made. All sheets made at the same time share one pool of threads. */
export function runBand(task: BandTask): Promise<EncodedBand> {
  return run(() => threads().run(task));
}

/** Have some rows turned, by the same threads. */
export async function runTurn(task: TurnTask): Promise<void> {
  await run(() => threads().run(task, { name: 'turnRows' }));
}

async function run<T>(start: () => Promise<T>): Promise<T> {
  let fail: ((error: unknown) => void) | undefined;
  try {
    return await new Promise<T>((resolve, reject) => {
      fail = reject;
      waiting.add(reject);
      start().then(resolve, reject);
    });
  } finally {
    if (fail !== undefined) waiting.delete(fail);
  }
}

function threads(): Piscina {
  if (pool !== null) return pool;
  const made = new Piscina({
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
  // A thread that cannot start says so here and nowhere else, and its band would be waited for without end.
  made.on('error', (error: unknown) => {
    for (const fail of [...waiting]) fail(error);
    if (pool === made) pool = null;
    made.destroy().catch(() => undefined);
  });
  pool = made;
  return made;
}

/** End the threads; for an orderly end of the program. A later sheet starts them anew. */
export async function closeRenderWorkers(): Promise<void> {
  const closing = pool;
  pool = null;
  await closing?.destroy();
}
