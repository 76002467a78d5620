import { useCallback, useEffect, useRef, useState } from 'react';
import type { Job, ProblemDetails, SheetOutputOptions, SheetRequestInput } from '#contract';
import { callJson, problemOf } from './call.js';

const over = (job: Job) => job.state === 'done' || job.state === 'failed' || job.state === 'cancelled';

/** Follow a job by server-sent events; where they fail, by asking once a second. Returns a stop function. */
export function followJob(
  id: string,
  onJob: (job: Job) => void,
  onLost: (problem: ProblemDetails) => void,
): () => void {
  const path = `/api/jobs/${encodeURIComponent(id)}`;
  const events = new EventSource(`${path}/events`);
  let timer: ReturnType<typeof setTimeout> | undefined;
  let stopped = false;
  const stop = () => {
    stopped = true;
    events.close();
    clearTimeout(timer);
  };
  const take = (job: Job) => {
    if (stopped) return;
    if (over(job)) stop();
    onJob(job);
  };
  const ask = async () => {
    try {
      take(await callJson<Job>(path));
      if (!stopped) timer = setTimeout(ask, 1000);
    } catch (error) {
      stop();
      onLost(problemOf(error));
    }
  };
  for (const name of ['progress', 'done', 'failed', 'cancelled']) {
    events.addEventListener(name, (event) => {
      const data = (event as MessageEvent<string>).data;
      try {
        take(JSON.parse(data) as Job);
      } catch {
        if (!stopped) void ask();
      }
    });
  }
  events.onerror = () => {
    if (stopped) return;
    events.close();
    void ask();
  };
  return stop;
}

export interface SheetMaking {
  readonly job: Job | null;
  readonly problem: ProblemDetails | null;
  readonly asking: boolean;
  make(request: SheetRequestInput, output: SheetOutputOptions): void;
  cancel(): void;
  /** Forget what is over; work under way goes on. */
  clear(): void;
}

/** Make a sheet and follow it. */
export function useSheetMaking(onDone: (sheetId: string) => void): SheetMaking {
  const [job, setJob] = useState<Job | null>(null);
  const [problem, setProblem] = useState<ProblemDetails | null>(null);
  const [asking, setAsking] = useState(false);
  const stop = useRef<(() => void) | null>(null);
  const done = useRef(onDone);
  done.current = onDone;
  useEffect(() => () => stop.current?.(), []);

  const make = useCallback((request: SheetRequestInput, output: SheetOutputOptions) => {
    stop.current?.();
    setProblem(null);
    setJob(null);
    setAsking(true);
    const take = (next: Job) => {
      setJob(next);
      if (next.state === 'failed' && next.problem) {
        setProblem({ type: 'about:blank', status: 0, where: null, ...next.problem });
      }
      if (next.state === 'done' && next.resultId) done.current(next.resultId);
    };
    callJson<Job>('/api/sheets', { body: { request, output } })
      .then((started) => {
        take(started);
        if (!over(started)) stop.current = followJob(started.id, take, setProblem);
      })
      .catch((error: unknown) => setProblem(problemOf(error)))
      .finally(() => setAsking(false));
  }, []);

  const cancel = useCallback(() => {
    if (!job) return;
    callJson<unknown>(`/api/jobs/${encodeURIComponent(job.id)}`, { method: 'DELETE' }).catch(
      (error: unknown) => setProblem(problemOf(error)),
    );
  }, [job]);

  const clear = useCallback(() => {
    setJob((old) => (old && !over(old) ? old : null));
    setProblem(null);
  }, []);
  return { job, problem, asking, make, cancel, clear };
}
