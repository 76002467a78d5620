import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ThreadPool } from '#shop/threads';
import type * as work from './bench-work.js';

type Work = typeof work;

/** The built worker; the package root is as far up from src/shop/press-bench as from dist/shop/press-bench. */
const packageRoot = path.resolve(import.meta.dirname, '../../..');

/** One thread: it remembers the fits it made, and the picture of a window follows the window itself. */
const pool = new ThreadPool({
  workerFile: pathToFileURL(path.join(packageRoot, 'dist/shop/press-bench/bench-worker.js')).href,
  maxThreads: 1,
  idleMilliseconds: 60_000,
  doing: 'Working the press window out',
});

/** Runs one of the works in a thread; a fit takes a second or so. Errors: also job.cancelled. */
export function inBenchThread<Name extends keyof Work>(
  name: Name,
  task: Parameters<Work[Name]>[0],
  signal?: AbortSignal,
): Promise<ReturnType<Work[Name]>> {
  return pool.run<ReturnType<Work[Name]>>(task, { name, signal });
}

/** Ends the thread; for an orderly end of the program. Later work starts it anew. */
export function closeBenchThreads(): Promise<void> {
  return pool.close();
}
