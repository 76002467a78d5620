import { useCallback, useEffect, useRef, useState } from 'react';
import type { Job, ProblemDetails } from '#contract';
import { callJson, problemOf, ServerProblem } from './call.js';
import { followJob, jobIsOver } from './follow-job.js';

export interface Work {
  readonly job: Job | null;
  readonly problem: ProblemDetails | null;
  /** From the asking until it is over. */
  readonly busy: boolean;
  readonly stopped: boolean;
  start(begin: (signal: AbortSignal) => Promise<Job>): void;
  /** Stop it, also while the file is still on its way. */
  cancel(): void;
  /** Forget what is over; work under way goes on. */
  clear(): void;
}

const keyOf = (place: string) => `dyewright.work.${place}`;
function keep(place: string | null, jobId: string | null) {
  if (place === null) return;
  try {
    if (jobId === null) localStorage.removeItem(keyOf(place));
    else localStorage.setItem(keyOf(place), jobId);
  } catch {
    // A browser that keeps nothing: after a reload the work is not found again, but it is done all the same.
  }
}
function kept(place: string | null): string | null {
  if (place === null) return null;
  try {
    return localStorage.getItem(keyOf(place));
  } catch {
    return null;
  }
}

/**
 * Work of the program begun here and followed to its end. With a `place` it is found again after a reload: the page
 * remembers its number until it is over.
 */
export function useWork(place: string | null, onDone: (resultId: string) => void): Work {
  const [job, setJob] = useState<Job | null>(null);
  const [problem, setProblem] = useState<ProblemDetails | null>(null);
  const [asking, setAsking] = useState(false);
  const stop = useRef<(() => void) | null>(null);
  const sending = useRef<AbortController | null>(null);
  const done = useRef(onDone);
  done.current = onDone;

  const take = useCallback(
    (next: Job) => {
      setJob(next);
      if (jobIsOver(next)) keep(place, null);
      if (next.state === 'failed' && next.problem) {
        setProblem({ type: 'about:blank', status: 0, where: null, ...next.problem });
      }
      if (next.state === 'done' && next.resultId) done.current(next.resultId);
    },
    [place],
  );
  const follow = useCallback(
    (started: Job) => {
      take(started);
      if (!jobIsOver(started)) stop.current = followJob(started.id, take, setProblem);
    },
    [take],
  );

  useEffect(() => {
    let gone = false;
    const id = kept(place);
    if (id !== null) {
      callJson<Job>(`/api/jobs/${encodeURIComponent(id)}`)
        .then((found) => {
          if (!gone) follow(found);
        })
        .catch((error: unknown) => {
          // The program was started afresh and knows it no longer.
          if (error instanceof ServerProblem && error.details.status === 404) keep(place, null);
        });
    }
    return () => {
      gone = true;
      stop.current?.();
    };
  }, [place, follow]);

  const start = useCallback(
    (begin: (signal: AbortSignal) => Promise<Job>) => {
      stop.current?.();
      setProblem(null);
      setJob(null);
      setAsking(true);
      const controller = new AbortController();
      sending.current = controller;
      begin(controller.signal)
        .then((started) => {
          keep(place, started.id);
          follow(started);
        })
        .catch((error: unknown) => {
          if (!controller.signal.aborted) setProblem(problemOf(error));
        })
        .finally(() => setAsking(false));
    },
    [place, follow],
  );

  const cancel = useCallback(() => {
    if (!job) return sending.current?.abort();
    callJson<unknown>(`/api/jobs/${encodeURIComponent(job.id)}`, { method: 'DELETE' }).catch(
      (error: unknown) => setProblem(problemOf(error)),
    );
  }, [job]);
  const clear = useCallback(() => {
    setJob((old) => (old && !jobIsOver(old) ? old : null));
    setProblem(null);
  }, []);
  const busy = asking || (job !== null && !jobIsOver(job));
  return { job, problem, busy, stopped: job?.state === 'cancelled', start, cancel, clear };
}
