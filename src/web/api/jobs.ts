import { useCallback } from 'react';
import type { Job, ProblemDetails, SheetOutputOptions, SheetRequestInput } from '#contract';
import { callJson } from './call.js';
import { useWork } from './work.js';

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
  const { job, problem, busy, start, cancel, clear } = useWork(null, onDone);
  const make = useCallback(
    (request: SheetRequestInput, output: SheetOutputOptions) =>
      start((signal) => callJson<Job>('/api/sheets', { body: { request, output }, signal })),
    [start],
  );
  return { job, problem, asking: busy && job === null, make, cancel, clear };
}
