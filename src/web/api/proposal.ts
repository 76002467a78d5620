import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { SheetProposal, SheetRequestInput } from '#contract';
import { callJson, callPicture } from './call.js';
import { useObjectUrl } from './object-url.js';

export type PreviewView = 'paper' | 'pressed' | 'reach';

/** What the sheet would be, with its checks; null request: nothing to ask yet. */
export const useProposal = (request: SheetRequestInput | null) =>
  useQuery({
    queryKey: ['proposal', request],
    queryFn: ({ signal }) => callJson<SheetProposal>('/api/sheets/proposal', { body: request, signal }),
    enabled: request !== null,
    placeholderData: keepPreviousData,
  });

/** A preview as an object URL, kept until the next one is there. */
export function usePreview(request: SheetRequestInput | null, view: PreviewView, maxPixels = 1400) {
  const query = useQuery({
    queryKey: ['preview', view, maxPixels, request],
    queryFn: ({ signal }) =>
      callPicture(
        `/api/sheets/preview?${new URLSearchParams({ request: JSON.stringify(request), view, max: String(maxPixels) })}`,
        signal,
      ),
    enabled: request !== null,
    placeholderData: keepPreviousData,
    gcTime: 60_000,
  });
  return { ...query, url: useObjectUrl(query.data ?? null) };
}
