import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Job, ReadBackSubject, Reading, ReadingPatch } from '#contract';
import { callForm, callJson } from './call.js';
import { useWork } from './work.js';

const at = (id: string) => `/api/readings/${encodeURIComponent(id)}`;

/** Readings of one test sheet; null: of all. */
export const useReadings = (sheetId: string | null) =>
  useQuery({
    queryKey: ['readings', 'of', sheetId],
    queryFn: ({ signal }) =>
      callJson<Reading[]>(
        sheetId === null ? '/api/readings' : `/api/readings?${new URLSearchParams({ sheetId })}`,
        { signal },
      ),
  });
export const useReading = (id: string | null) =>
  useQuery({
    queryKey: ['readings', id],
    queryFn: ({ signal }) => callJson<Reading>(at(id ?? ''), { signal }),
    enabled: id !== null,
  });
export const useReadingPatches = (id: string) =>
  useQuery({
    queryKey: ['readings', id, 'patches'],
    queryFn: ({ signal }) => callJson<ReadingPatch[]>(`${at(id)}/patches`, { signal }),
  });

/** Four corners going round, pixels of the upright picture from its top left corner. */
export type Corners = readonly [number, number][];

export interface PictureToRead {
  readonly file: File;
  readonly subject: ReadBackSubject;
  readonly from: 'scan' | 'photo';
  /** Named by the person where the picture's own code is not to be relied on. */
  readonly sheetId?: string;
  readonly readerId?: string;
  readonly card?: { readonly corners: Corners; readonly values: File };
}

/** Have a picture read and follow it; found again after a reload. */
export function useReadingWork(place: string, onDone: (readingId: string) => void) {
  const client = useQueryClient();
  const work = useWork(`read.${place}`, (id) => {
    void client.invalidateQueries({ queryKey: ['readings'] });
    onDone(id);
  });
  return {
    ...work,
    read: ({ file, subject, from, sheetId, readerId, card }: PictureToRead) =>
      work.start((signal) =>
        callForm<Job>(
          '/api/readings',
          {
            subject,
            from,
            ...(sheetId ? { sheetId } : {}),
            ...(readerId ? { readerId } : {}),
            ...(card ? { card: JSON.stringify({ corners: card.corners }) } : {}),
          },
          { file, ...(card ? { cardValues: card.values } : {}) },
          signal,
        ),
      ),
  };
}

/** A file an instrument wrote of a sheet's patches. */
export function useInstrumentFile() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ file, sheetId }: { file: File; sheetId: string }) =>
      callForm<Reading>('/api/readings/instrument', { sheetId }, { file }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['readings'] }),
  });
}

/** Work out the colours of a reading anew by a reader as it is calibrated now; null: by the picture's own word. */
export function useTellColoursAnew() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ id, readerId }: { id: string; readerId: string | null }) =>
      callJson<Reading>(`${at(id)}/colours`, { body: { readerId } }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['readings'] }),
  });
}

export function useRemoveReading() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: string) => callJson<unknown>(at(id), { method: 'DELETE' }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['readings'] }),
  });
}

export const overlayUrl = (reading: Reading, maxPixels: number): string =>
  `${at(reading.id)}/overlay?max=${maxPixels}`;
export const measurementsUrl = (reading: Reading): string => `${at(reading.id)}/measurements`;

export type ReadingWork = ReturnType<typeof useReadingWork>;
