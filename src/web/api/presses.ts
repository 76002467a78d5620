import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { PlatenCheck, PlatenCheckInput, Press } from '#contract';
import { callJson } from './call.js';

const at = (id: string) => `/api/presses/${encodeURIComponent(id)}`;

export const usePresses = () =>
  useQuery({
    queryKey: ['presses'],
    queryFn: ({ signal }) => callJson<Press[]>('/api/presses', { signal }),
  });
export const usePress = (id: string | null) =>
  useQuery({
    queryKey: ['presses', id],
    queryFn: ({ signal }) => callJson<Press>(at(id ?? ''), { signal }),
    enabled: id !== null,
  });

/** Temperatures measured on a press's platen, newest first. */
export const usePlatenChecks = (pressId: string | null) =>
  useQuery({
    queryKey: ['presses', pressId, 'checks'],
    queryFn: ({ signal }) => callJson<PlatenCheck[]>(`${at(pressId ?? '')}/checks`, { signal }),
    enabled: pressId !== null,
  });

/** What rests on the offset of a press: what to set for a recipe, plans and windows, start recipes. */
const restsOnOffset = ['presses', 'recipes', 'suggestions', 'heat', 'ladders', 'test-sheet-proposal'];

export function useAddPlatenCheck(pressId: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (input: PlatenCheckInput) => callJson<PlatenCheck>(`${at(pressId)}/checks`, { body: input }),
    onSuccess: () => {
      for (const key of restsOnOffset) void client.invalidateQueries({ queryKey: [key] });
    },
  });
}
export function useRemovePlatenCheck(pressId: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (checkId: string) =>
      callJson<unknown>(`${at(pressId)}/checks/${encodeURIComponent(checkId)}`, { method: 'DELETE' }),
    onSuccess: () => {
      for (const key of restsOnOffset) void client.invalidateQueries({ queryKey: [key] });
    },
  });
}
