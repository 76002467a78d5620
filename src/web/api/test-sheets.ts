import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type {
  Job,
  SheetOutputOptions,
  TestSheet,
  TestSheetOrderInput,
  TestSheetProposal,
  TestSheetSnapshot,
} from '#contract';
import { callJson, callPicture } from './call.js';
import { useObjectUrl } from './object-url.js';
import { useWork } from './work.js';

const at = (id: string) => `/api/test-sheets/${encodeURIComponent(id)}`;

export const useTestSheets = () =>
  useQuery({
    queryKey: ['test-sheets'],
    queryFn: ({ signal }) => callJson<TestSheet[]>('/api/test-sheets', { signal }),
  });
export const useTestSheet = (id: string | null) =>
  useQuery({
    queryKey: ['test-sheets', id],
    queryFn: ({ signal }) => callJson<TestSheet>(at(id ?? ''), { signal }),
    enabled: id !== null,
  });
/** The blank, setup and path it was made from, as they were then. */
export const useTestSheetMadeFrom = (id: string | null) =>
  useQuery({
    queryKey: ['test-sheets', id, 'made-from'],
    queryFn: ({ signal }) => callJson<TestSheetSnapshot>(`${at(id ?? '')}/made-from`, { signal }),
    enabled: id !== null,
  });

/** What a test sheet would be; null: nothing to ask yet. */
export const useTestSheetProposal = (order: TestSheetOrderInput | null) =>
  useQuery({
    queryKey: ['test-sheet-proposal', order],
    queryFn: ({ signal }) =>
      callJson<TestSheetProposal>('/api/test-sheets/proposal', { body: order, signal }),
    enabled: order !== null,
    placeholderData: keepPreviousData,
  });

/** A picture of it: as printed, or as it reads once pressed. */
export function useTestSheetPreview(
  order: TestSheetOrderInput | null,
  view: 'paper' | 'pressed',
  maxPixels = 1200,
) {
  const query = useQuery({
    queryKey: ['test-sheet-preview', view, maxPixels, order],
    queryFn: ({ signal }) =>
      callPicture(
        `/api/test-sheets/preview?${new URLSearchParams({ order: JSON.stringify(order), view, max: String(maxPixels) })}`,
        signal,
      ),
    enabled: order !== null,
    placeholderData: keepPreviousData,
    gcTime: 60_000,
  });
  return { ...query, url: useObjectUrl(query.data ?? null) };
}

/** Make a test sheet and follow it; found again after a reload. */
export function useTestSheetMaking(onDone: (sheetId: string) => void) {
  const client = useQueryClient();
  const work = useWork('make-test-sheet', (id) => {
    void client.invalidateQueries({ queryKey: ['test-sheets'] });
    onDone(id);
  });
  return {
    ...work,
    make: (order: TestSheetOrderInput, output: Partial<SheetOutputOptions>) =>
      work.start((signal) => callJson<Job>('/api/test-sheets', { body: { order, output }, signal })),
  };
}

export function useRemoveTestSheet() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: string) => callJson<unknown>(at(id), { method: 'DELETE' }),
    onSuccess: () => {
      void client.invalidateQueries({ queryKey: ['test-sheets'] });
      void client.invalidateQueries({ queryKey: ['readings'] });
    },
  });
}

export const testSheetFileUrl = (sheet: TestSheet, fileName: string): string =>
  `${at(sheet.id)}/files/${encodeURIComponent(fileName)}`;
