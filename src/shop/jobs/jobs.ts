import { randomUUID } from 'node:crypto';
import type { Job } from '#contract';
import { asProblem, isProblem, Problem, problemCodes } from '#craft/problem';
import { asDiskProblem } from '#shop/files';
import { missing, type Records } from '#shop/store';

export interface JobContext {
  /** Aborted when the job is cancelled or the shop closes. */
  readonly signal: AbortSignal;
  /** `progress` 0..1; `step` says what is being done now. */
  onProgress(progress: number, step: string): void;
}

export interface StartJob {
  readonly kind: Job['kind'];
  /** Names the work itself: while a job of this key is under way, starting it again gives that job. */
  readonly key: string;
  /** Returns the id of the record made. Must leave nothing half-made behind when it throws. */
  readonly work: (context: JobContext) => Promise<string | null>;
}

interface Live {
  readonly key: string;
  readonly controller: AbortController;
  readonly listeners: Set<(job: Job) => void>;
  job: Job;
  settled: Promise<void>;
}

const remembered = 14 * 24 * 3600 * 1000;

/** The jobs of one shop, one at a time in the order they came: each uses all the processor it can. */
export class Jobs {
  private readonly live = new Map<string, Live>();
  private line: Promise<void> = Promise.resolve();
  private closed = false;

  constructor(
    private readonly records: Records,
    private readonly now: () => Date,
    private readonly onFault: (error: unknown) => void,
  ) {}

  /** What a crash interrupted is said to have failed; starting it again does it all. */
  async recover(): Promise<void> {
    const problem = problemOf(
      new Problem('job.cancelled', 'The program was stopped before this was done.', {
        remedy: 'Start it again; nothing half-made was kept.',
      }),
    );
    await this.records.together(async (records) => {
      for (const job of await records.jobs.unfinished()) {
        await records.jobs.put({ ...job, state: 'failed', problem }, '', this.now().toISOString());
      }
      await records.jobs.forget(new Date(this.now().getTime() - remembered).toISOString());
    });
  }

  async start(request: StartJob): Promise<Job> {
    if (this.closed) {
      throw new Problem('job.cancelled', 'The shop is being closed.', {
        remedy: 'Open it again, then start the work.',
      });
    }
    for (const live of this.live.values()) if (live.key === request.key) return live.job;
    const job: Job = {
      id: randomUUID(),
      kind: request.kind,
      state: 'waiting',
      progress: 0,
      step: 'Waiting',
      resultId: null,
      problem: null,
    };
    const live: Live = {
      key: request.key,
      controller: new AbortController(),
      listeners: new Set(),
      job,
      settled: Promise.resolve(),
    };
    this.live.set(job.id, live);
    live.settled = this.line.then(() => this.run(live, request));
    this.line = live.settled;
    try {
      // Also a job that only waits is remembered, so that after a crash it can be said what became of it.
      await this.records.jobs.put(live.job, request.key, this.now().toISOString());
    } catch (error) {
      live.controller.abort();
      throw asDiskProblem(error, 'the work was being noted');
    }
    return job;
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<Job> {
    const job = this.live.get(id)?.job ?? (await this.records.jobs.get(id));
    if (job === undefined) throw missing('job', id);
    return job;
  }

  /** Asks a job to stop. One that has ended stays as it ended. Resolves when it has stopped. Errors: record.missing. */
  async cancel(id: string): Promise<Job> {
    const live = this.live.get(id);
    if (live !== undefined) {
      live.controller.abort();
      await live.settled;
    }
    return this.get(id);
  }

  /**
   * Tells the job as it is now and after every change, until it has ended. Returns a function that ends the
   * telling. Errors: record.missing.
   */
  async subscribe(id: string, listener: (job: Job) => void): Promise<() => void> {
    const live = this.live.get(id);
    if (live === undefined) {
      listener(await this.get(id));
      return () => undefined;
    }
    live.listeners.add(listener);
    listener(live.job);
    return () => live.listeners.delete(listener);
  }

  /** Resolves with the ended job. */
  async finished(id: string): Promise<Job> {
    await this.live.get(id)?.settled;
    return this.get(id);
  }

  /** Stops everything under way and waits for it. */
  async close(): Promise<void> {
    this.closed = true;
    for (const live of this.live.values()) live.controller.abort();
    await this.line;
  }

  private async run(live: Live, request: StartJob): Promise<void> {
    const signal = live.controller.signal;
    try {
      signal.throwIfAborted();
      await this.keep(live, { state: 'working', step: 'Starting' });
      const resultId = await request.work({
        signal,
        onProgress: (progress, step) => {
          if (live.job.state === 'working')
            this.tell(live, { progress: Math.max(live.job.progress, Math.min(1, progress)), step });
        },
      });
      await this.keep(live, { state: 'done', progress: 1, step: 'Done', resultId });
    } catch (thrown) {
      const error = asDiskProblem(thrown, 'the work was being done');
      const cancelled = signal.aborted && (!isProblem(error) || error.code === 'job.cancelled');
      if (!cancelled && (!isProblem(error) || error.code === 'internal.fault')) this.onFault(error);
      const change: Partial<Job> = cancelled
        ? { state: 'cancelled', step: 'Stopped' }
        : { state: 'failed', step: 'Failed', problem: problemOf(error) };
      // Also when the record cannot be written (a full disk): whoever listens must hear the end.
      await this.keep(live, change).catch(() => this.tell(live, change));
    } finally {
      this.live.delete(live.job.id);
    }
  }

  private async keep(live: Live, change: Partial<Job>): Promise<void> {
    await this.records.jobs.put({ ...live.job, ...change }, live.key, this.now().toISOString());
    this.tell(live, change);
  }

  private tell(live: Live, change: Partial<Job>): void {
    live.job = { ...live.job, ...change };
    for (const listener of live.listeners) {
      try {
        listener(live.job);
      } catch (error) {
        this.onFault(error);
      }
    }
  }
}

function problemOf(error: unknown): NonNullable<Job['problem']> {
  const problem = asProblem(error);
  return {
    code: problem.code,
    title: problemCodes[problem.code].title,
    detail: problem.message,
    remedy: problem.remedy,
  };
}
