import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { ThreadPool } from '#shop/threads';
import type * as work from './learn-work.js';

type Work = typeof work;

/** The built worker; the package root is as far up from src/shop/readers as from dist/shop/readers. */
const packageRoot = path.resolve(import.meta.dirname, '../../..');

const pool = new ThreadPool({
  workerFile: pathToFileURL(path.join(packageRoot, 'dist/shop/readers/learn-worker.js')).href,
  maxThreads: 1,
  idleMilliseconds: 60_000,
  doing: 'Calibrating',
});

/** Runs one of the works in a thread: they take a second or two, in which others are to be answered. */
export function inReaderThread<Name extends keyof Work>(
  name: Name,
  task: Parameters<Work[Name]>[0],
): Promise<ReturnType<Work[Name]>> {
  return pool.run<ReturnType<Work[Name]>>(task, { name });
}

/** Ends the thread; for an orderly end of the program. Later work starts it anew. */
export function closeReaderThreads(): Promise<void> {
  return pool.close();
}
