import { Problem } from '#craft/problem';

/** Settles as the work does, or at once with job.cancelled; work that others share goes on without this caller. */
export async function unlessAborted<T>(work: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (signal === undefined) return work;
  let stop: (() => void) | undefined;
  const aborted = new Promise<never>((_, reject) => {
    stop = () =>
      reject(
        new Problem('job.cancelled', 'The work was stopped.', { remedy: 'Start it again when you like.' }),
      );
    if (signal.aborted) stop();
    else signal.addEventListener('abort', stop, { once: true });
  });
  try {
    return await Promise.race([work, aborted]);
  } finally {
    if (stop !== undefined) signal.removeEventListener('abort', stop);
  }
}
