import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Reader, ReaderInput } from '#contract';
import { callForm, callJson } from './call.js';
import type { Corners } from './readings.js';

const at = (id: string) => `/api/readers/${encodeURIComponent(id)}`;

export const useReaders = () =>
  useQuery({
    queryKey: ['readers'],
    queryFn: ({ signal }) => callJson<Reader[]>('/api/readers', { signal }),
  });

/** Add or change one; what a person may set only. */
export function useKeepReader() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: ({ id, reader }: { id: string; reader: ReaderInput }) =>
      callJson<Reader>(at(id), { method: 'PUT', body: reader }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['readers'] }),
  });
}

export function useRemoveReader() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (id: string) => callJson<unknown>(at(id), { method: 'DELETE' }),
    onSuccess: () => client.invalidateQueries({ queryKey: ['readers'] }),
  });
}

/** Either a reading made with this reader and an instrument's file of the same sheet, or a target with its file. */
export type Calibration =
  | { readonly by: 'same-ink'; readonly readingId: string; readonly values: File }
  | { readonly by: 'target'; readonly picture: File; readonly corners: Corners; readonly values: File };

export function useCalibrate(readerId: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (calibration: Calibration) =>
      calibration.by === 'same-ink'
        ? callForm<Reader>(
            `${at(readerId)}/calibration`,
            { readingId: calibration.readingId },
            { file: calibration.values },
          )
        : callForm<Reader>(
            `${at(readerId)}/calibration`,
            { corners: JSON.stringify(calibration.corners) },
            { file: calibration.values, picture: calibration.picture },
          ),
    onSuccess: () => client.invalidateQueries({ queryKey: ['readers'] }),
  });
}
