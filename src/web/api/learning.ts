import { useMutation, useQueries, useQuery, useQueryClient } from '@tanstack/react-query';
import type { ColourPath, EyePicks, Job, LearnRequest, PathCheck, PathStanding } from '#contract';
import { callForm, callJson } from './call.js';
import { useWork } from './work.js';

const at = (pathId: string) => `/api/paths/${encodeURIComponent(pathId)}`;

function useForgetPaths() {
  const client = useQueryClient();
  return () => {
    for (const name of ['paths', 'setups', 'shop', 'proposal', 'preview']) {
      void client.invalidateQueries({ queryKey: [name] });
    }
  };
}

/** Learn a path from readings, or from an instrument's file alone; found again after a reload. */
export function useLearning(place: string, onDone: (pathId: string) => void) {
  const forget = useForgetPaths();
  const work = useWork(`learn.${place}`, (id) => {
    forget();
    onDone(id);
  });
  return {
    ...work,
    learn: (request: LearnRequest) =>
      work.start((signal) => callJson<Job>('/api/paths/measured', { body: request, signal })),
    learnFromFile: (file: File, fields: { name: string; setupId?: string; blankId?: string }) =>
      work.start((signal) => callForm<Job>('/api/paths/measured-file', { ...fields }, { file }, signal)),
  };
}

export function useLearnByEye() {
  const forget = useForgetPaths();
  return useMutation({
    mutationFn: (picks: EyePicks) => callJson<ColourPath>('/api/paths/by-eye', { body: picks }),
    onSuccess: forget,
  });
}

export const useChecksOfPath = (pathId: string | null) =>
  useQuery({
    queryKey: ['paths', pathId, 'checks'],
    queryFn: ({ signal }) => callJson<PathCheck[]>(`${at(pathId ?? '')}/checks`, { signal }),
    enabled: pathId !== null,
  });

/** Hold a reading of a check sheet against what the path promised. */
export function useCheckPath(pathId: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (readingId: string) => callJson<PathCheck>(`${at(pathId)}/checks`, { body: { readingId } }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['paths'] }),
  });
}

/** Whether each path still fits how things are printed, in the order of the ids. */
export const useStandings = (pathIds: readonly string[]) =>
  useQueries({
    queries: pathIds.map((id) => ({
      queryKey: ['paths', id, 'standing'],
      queryFn: ({ signal }: { signal: AbortSignal }) =>
        callJson<PathStanding>(`${at(id)}/standing`, { signal }),
    })),
  });

export type Learning = ReturnType<typeof useLearning>;
