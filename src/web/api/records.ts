import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type {
  Artwork,
  Blank,
  ColourPath,
  PrintSetup,
  ReadBack,
  ReadBackSubject,
  Sheet,
  SheetSnapshot,
  ShopFacts,
  ShopPreferences,
} from '#contract';
import { callJson, callUpload } from './call.js';

const list = <T>(name: string) => ({
  queryKey: [name],
  queryFn: ({ signal }: { signal: AbortSignal }) => callJson<T[]>(`/api/${name}`, { signal }),
});

/** Asked for in many places, also within the note that says it failed: only who asks again asks again. */
export const useShop = () =>
  useQuery({
    queryKey: ['shop'],
    queryFn: ({ signal }) => callJson<ShopFacts>('/api/shop', { signal }),
    retryOnMount: false,
  });
export const useArtworks = () => useQuery(list<Artwork>('artwork'));
export const useBlanks = () => useQuery(list<Blank>('blanks'));
export const useSetups = () => useQuery(list<PrintSetup>('setups'));
export const useColourPaths = () => useQuery(list<ColourPath>('paths'));
/** A new shop makes its demo sheets after it has opened, so an empty list is asked for again. */
export const useSheets = () =>
  useQuery({
    ...list<Sheet>('sheets'),
    refetchInterval: (query) => (query.state.data?.length === 0 ? 5000 : false),
  });

export const useSheet = (id: string | null) =>
  useQuery({
    queryKey: ['sheets', id],
    queryFn: ({ signal }) => callJson<Sheet>(`/api/sheets/${encodeURIComponent(id ?? '')}`, { signal }),
    enabled: id !== null,
  });

/** What a sheet was made from, as it was then. */
export const useMadeFrom = (id: string) =>
  useQuery({
    queryKey: ['sheets', id, 'made-from'],
    queryFn: ({ signal }) =>
      callJson<SheetSnapshot>(`/api/sheets/${encodeURIComponent(id)}/made-from`, { signal }),
  });

/**
 * Change some of the preferences. Shown at once; sent one after the other, each as the whole of what is then shown,
 * so that two quick changes cannot undo one another.
 */
export function useSavePreferences() {
  const client = useQueryClient();
  const shown = () => client.getQueryData<ShopFacts>(['shop']);
  return useMutation({
    scope: { id: 'preferences' },
    mutationFn: (_change: Partial<ShopPreferences>) =>
      callJson<unknown>('/api/shop/preferences', { method: 'PUT', body: shown()?.preferences }),
    onMutate: (change) => {
      const before = shown();
      if (before) {
        client.setQueryData<ShopFacts>(['shop'], {
          ...before,
          preferences: { ...before.preferences, ...change },
        });
      }
    },
    // What was shown too early is put right from what the shop has.
    onError: () => client.invalidateQueries({ queryKey: ['shop'] }),
  });
}

export function useAddArtwork() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ file, signal }: { file: File; signal: AbortSignal }) =>
      callUpload<Artwork>('/api/artwork', file, {}, signal),
    onSuccess: (artwork) => {
      client.setQueryData<Artwork[]>(['artwork'], (old) => [
        artwork,
        ...(old ?? []).filter((a) => a.id !== artwork.id),
      ]);
      void client.invalidateQueries({ queryKey: ['artwork'] });
    },
  });
}

/** Keep or remove a blank, a print setup or a press. Proposals are asked for again, since they may have changed. */
export function useSaveRecord<T extends { id: string }>(name: 'blanks' | 'setups' | 'presses') {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (record: T) =>
      callJson<T>(`/api/${name}/${encodeURIComponent(record.id)}`, { method: 'PUT', body: record }),
    onSuccess: () => forget(client, name),
  });
}

export function useRemoveRecord(name: 'blanks' | 'setups' | 'paths' | 'presses') {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: string) =>
      callJson<unknown>(`/api/${name}/${encodeURIComponent(id)}`, { method: 'DELETE' }),
    onSuccess: () => forget(client, name),
  });
}

export function useImportPath() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ file, name }: { file: File; name: string }) =>
      callUpload<ColourPath>('/api/paths', file, { name }),
    onSuccess: () => forget(client, 'paths'),
  });
}

export const useReadBack = () =>
  useMutation({
    mutationFn: ({ file, subject, signal }: { file: File; subject: ReadBackSubject; signal: AbortSignal }) =>
      callUpload<ReadBack>('/api/read-back', file, { subject }, signal),
  });

function forget(client: ReturnType<typeof useQueryClient>, name: string) {
  void client.invalidateQueries({ queryKey: [name] });
  void client.invalidateQueries({ queryKey: ['shop'] });
  void client.invalidateQueries({ queryKey: ['proposal'] });
  void client.invalidateQueries({ queryKey: ['preview'] });
  // A blank kept with another recipe has a new version of it; a press or blank changed changes what is worked out.
  for (const key of ['recipes', 'suggestions', 'heat', 'force', 'test-sheet-proposal']) {
    void client.invalidateQueries({ queryKey: [key] });
  }
}
