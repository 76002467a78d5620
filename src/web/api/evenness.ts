import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { EvennessReadingFacts, Job } from '#contract';
import { callForm, callJson } from './call.js';
import { useWork } from './work.js';

const at = (id: string) => `/api/evenness/${encodeURIComponent(id)}`;

/** Readings of evenness sheets; of one sheet or one press where named. */
export const useEvennessReadings = (
  of: { readonly sheetId?: string; readonly pressId?: string } = {},
  enabled = true,
) =>
  useQuery({
    queryKey: ['evenness', 'of', of],
    queryFn: ({ signal }) =>
      callJson<EvennessReadingFacts[]>(`/api/evenness?${new URLSearchParams(of)}`, { signal }),
    enabled,
  });
export const useEvennessReading = (id: string | null) =>
  useQuery({
    queryKey: ['evenness', id],
    queryFn: ({ signal }) => callJson<EvennessReadingFacts>(at(id ?? ''), { signal }),
    enabled: id !== null,
  });

/** Have a scan of an evenness sheet read and follow it; found again after a reload. */
export function useEvennessWork(place: string, onDone: (readingId: string) => void) {
  const client = useQueryClient();
  const work = useWork(`evenness.${place}`, (id) => {
    void client.invalidateQueries({ queryKey: ['evenness'] });
    onDone(id);
  });
  return {
    ...work,
    read: (
      file: File,
      fields: { readonly sheetId?: string; readonly pressId?: string; readonly readerId?: string } = {},
    ) => work.start((signal) => callForm<Job>('/api/evenness', { ...fields }, { file }, signal)),
  };
}
export type EvennessWork = ReturnType<typeof useEvennessWork>;

export function useRemoveEvenness() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: string) => callJson<unknown>(at(id), { method: 'DELETE' }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['evenness'] }),
  });
}
