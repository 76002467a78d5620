import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ThreadPool } from '#shop/threads';
import type * as work from './path-work.js';

type Work = typeof work;

/** The built worker; the package root is as far up from src/shop/paths as from dist/shop/paths. */
const packageRoot = path.resolve(import.meta.dirname, '../../..');

const pool = new ThreadPool({
  workerFile: pathToFileURL(path.join(packageRoot, 'dist/shop/paths/path-worker.js')).href,
  maxThreads: 2,
  idleMilliseconds: 60_000,
  doing: 'Working the colour path out',
});

/** Runs one of the works in a thread; learning a chart and turning it round take seconds. Errors: also job.cancelled. */
export function inPathThread<Name extends keyof Work>(
  name: Name,
  task: Parameters<Work[Name]>[0],
  signal?: AbortSignal,
): Promise<ReturnType<Work[Name]>> {
  return pool.run<ReturnType<Work[Name]>>(task, { name, signal });
}

/** Ends the threads; for an orderly end of the program. Later work starts them anew. */
export function closePathThreads(): Promise<void> {
  return pool.close();
}
