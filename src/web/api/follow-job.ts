import type { Job, ProblemDetails } from '#contract';
import { callJson, problemOf } from './call.js';

/** Nothing more will come of it. */
export const jobIsOver = (job: Job): boolean =>
  job.state === 'done' || job.state === 'failed' || job.state === 'cancelled';

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
    if (jobIsOver(job)) stop();
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
