import { Piscina } from 'piscina';
import { Problem } from '#craft/problem';
import { unwrap } from './thread-work.js';

export interface ThreadPoolOptions {
  /** file: URL of the built module whose exports (wrapped in `threadWork`) are the work. */
  readonly workerFile: string;
  readonly maxThreads: number;
  /** Threads without work end after this, and give their memory back. */
  readonly idleMilliseconds: number;
  /** What the threads do, as in 'Reading the picture': for the sentence when they cannot. */
  readonly doing: string;
  readonly resourceLimits?: {
    readonly maxYoungGenerationSizeMb?: number;
    readonly maxOldGenerationSizeMb?: number;
  };
}

export interface ThreadRunOptions {
  /** Which export of the module; left out: the default one. */
  readonly name?: string;
  readonly transferList?: readonly ArrayBuffer[];
  /** Aborted: the task ends with `job.cancelled`, and a thread that is at work on it ends too. */
  readonly signal?: AbortSignal | undefined;
}

interface Waiting {
  readonly start: (threads: Piscina) => Promise<unknown>;
  readonly settle: (answer: unknown) => void;
  readonly fail: (error: unknown) => void;
}

/**
 * Worker threads for one kind of work, made when first wanted and ended when idle. Every task settles: a thread that
 * cannot start, runs out of memory or ends by itself fails what it was to do with a Problem, and the tasks behind it
 * go on in a new one.
 *
 * The tasks wait here and not in the pool library's own queue, which looks at its queue only when a thread comes free:
 * after a thread died or was ended for a cancelled task, what waited behind it would wait for ever.
 */
export class ThreadPool {
  #threads: Piscina | null = null;
  readonly #waiting: Waiting[] = [];
  readonly #running = new Set<Waiting>();

  constructor(private readonly options: ThreadPoolOptions) {}

  /** Errors: what the work throws; `job.cancelled`; `internal.fault` when the thread failed as such. */
  run<Result>(task: unknown, options: ThreadRunOptions = {}): Promise<Result> {
    const { name, transferList, signal } = options;
    return new Promise<Result>((resolve, reject) => {
      if (signal?.aborted) return reject(stopped());
      const leave = () => {
        const place = this.#waiting.indexOf(one);
        if (place < 0) return;
        this.#waiting.splice(place, 1);
        one.fail(stopped());
      };
      const one: Waiting = {
        start: (threads) =>
          threads.run(task, {
            ...(name === undefined ? {} : { name }),
            ...(transferList === undefined ? {} : { transferList: [...transferList] }),
            ...(signal === undefined ? {} : { signal }),
          }),
        settle: (answer) => {
          signal?.removeEventListener('abort', leave);
          try {
            resolve(unwrap(answer) as Result);
          } catch (error) {
            reject(error);
          }
        },
        fail: (error) => {
          signal?.removeEventListener('abort', leave);
          reject(signal?.aborted ? stopped() : error);
        },
      };
      signal?.addEventListener('abort', leave, { once: true });
      this.#waiting.push(one);
      this.#next();
    });
  }

  /** Ends the threads; for an orderly end of the program. Later work starts them anew. */
  async close(): Promise<void> {
    const closing = this.#threads;
    this.#threads = null;
    this.#failAll(stopped());
    await closing?.destroy();
  }

  #next(): void {
    while (this.#waiting.length > 0 && this.#running.size < this.options.maxThreads) {
      const one = this.#waiting.shift()!;
      this.#running.add(one);
      const done = (tell: () => void) => {
        // Already failed with its pool: told once is enough.
        if (!this.#running.delete(one)) return;
        tell();
        this.#next();
      };
      one.start(this.#open()).then(
        (answer) => done(() => one.settle(answer)),
        (error) => done(() => one.fail(this.#fault(error))),
      );
    }
  }

  #open(): Piscina {
    if (this.#threads !== null) return this.#threads;
    const { workerFile, maxThreads, idleMilliseconds, resourceLimits } = this.options;
    const made = new Piscina({
      filename: workerFile,
      minThreads: 0,
      maxThreads,
      idleTimeout: idleMilliseconds,
      concurrentTasksPerWorker: 1,
      // The built files run as built: flags that the host was started with (import conditions) are not theirs.
      execArgv: [],
      ...(resourceLimits === undefined ? {} : { resourceLimits }),
    });
    // A thread that cannot start says so here and nowhere else.
    made.on('error', (error: unknown) => this.#giveUp(made, error));
    // One that ended while starting, without an error, says nothing: seen by a task that waits for no thread.
    made.on('workerDestroy', () =>
      setImmediate(() => {
        if (this.#threads === made && made.queueSize > 0 && made.threads.length === 0)
          this.#giveUp(made, new Error('a thread ended before it could work'));
      }),
    );
    this.#threads = made;
    return made;
  }

  #giveUp(threads: Piscina, error: unknown): void {
    if (this.#threads !== threads) return;
    this.#threads = null;
    this.#failAll(this.#fault(error));
    threads.destroy().catch(() => undefined);
  }

  #failAll(error: unknown): void {
    const all = [...this.#running, ...this.#waiting.splice(0)];
    this.#running.clear();
    for (const one of all) one.fail(error);
  }

  #fault(cause: unknown): Problem {
    const { doing } = this.options;
    if ((cause as { code?: unknown } | null)?.code === 'ERR_WORKER_OUT_OF_MEMORY') {
      return new Problem('internal.fault', `${doing} needed more memory than there is.`, {
        remedy: 'Close other programs or take a smaller picture, then try again.',
        cause,
      });
    }
    return new Problem('internal.fault', `${doing} failed: the part of the program that does it ended.`, {
      remedy: 'Try again. If it happens again, install the program afresh, and report it.',
      cause,
    });
  }
}

function stopped(): Problem {
  return new Problem('job.cancelled', 'The work was stopped.', { remedy: 'Start it again when you like.' });
}
