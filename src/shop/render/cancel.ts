import { Problem } from '#craft/problem';

export function cancelled(): Problem {
  return new Problem('job.cancelled', 'The work was stopped.', { remedy: 'Start it again when you like.' });
}

export function throwIfCancelled(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw cancelled();
}

/** Settles with the work, or at once with `job.cancelled`; the work itself may still be ending. */
export async function orCancelled<T>(work: Promise<T>, signal: AbortSignal | undefined): Promise<T> {
  if (signal === undefined) return work;
  throwIfCancelled(signal);
  let stop: (() => void) | undefined;
  try {
    return await Promise.race([
      work,
      new Promise<never>((_resolve, reject) => {
        stop = () => reject(cancelled());
        signal.addEventListener('abort', stop, { once: true });
      }),
    ]);
  } finally {
    if (stop !== undefined) signal.removeEventListener('abort', stop);
    work.catch(() => undefined);
  }
}
