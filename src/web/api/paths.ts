import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type {
  ArtworkColours,
  ColourAnswer,
  ColourPath,
  ColourQuestion,
  PathLook,
  PathStanding,
  PrintSetup,
} from '#contract';
import { callJson } from './call.js';

const pathUrl = (id: string) => `/api/paths/${encodeURIComponent(id)}`;

export const useColourPath = (id: string) =>
  useQuery({
    queryKey: ['paths', id],
    queryFn: ({ signal }) => callJson<ColourPath>(pathUrl(id), { signal }),
  });

export const usePathLook = (id: string) =>
  useQuery({
    queryKey: ['paths', id, 'look'],
    queryFn: ({ signal }) => callJson<PathLook>(`${pathUrl(id)}/look`, { signal }),
    staleTime: Number.POSITIVE_INFINITY,
  });

/** Against a print setup and a blank as they are now; left out: those it was measured on. */
export const usePathStanding = (id: string | null, now: { setupId?: string; blankId?: string } = {}) =>
  useQuery({
    queryKey: ['paths', id, 'standing', now],
    queryFn: ({ signal }) =>
      callJson<PathStanding>(`${pathUrl(id ?? '')}/standing?${new URLSearchParams(now)}`, { signal }),
    enabled: id !== null,
  });

export const useArtworkColours = (id: string, artworkId: string | null) =>
  useQuery({
    queryKey: ['paths', id, 'artwork', artworkId],
    queryFn: ({ signal }) =>
      callJson<ArtworkColours>(`${pathUrl(id)}/artwork/${encodeURIComponent(artworkId ?? '')}`, { signal }),
    enabled: artworkId !== null,
    staleTime: Number.POSITIVE_INFINITY,
  });

/** What comes out for colours asked for; the last answer stays while the next is worked out. */
export const useColourAnswers = (id: string, colours: ColourQuestion['colours']) =>
  useQuery({
    queryKey: ['paths', id, 'colours', colours],
    queryFn: ({ signal }) =>
      callJson<ColourAnswer[]>(`${pathUrl(id)}/colours`, { body: { colours }, signal }),
    enabled: colours.length > 0,
    placeholderData: keepPreviousData,
    staleTime: Number.POSITIVE_INFINITY,
  });

export const profileUrl = (id: string, icc: 2 | 4) => `${pathUrl(id)}/profile?icc=${icc}`;
export const pathMeasurementsUrl = (id: string) => `${pathUrl(id)}/measurements`;

/** Give a print setup this colour path. Read afresh first, so that nothing changed meanwhile is put back. */
export function useGivePath() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: async ({ setupId, pathId }: { setupId: string; pathId: string | null }) => {
      const url = `/api/setups/${encodeURIComponent(setupId)}`;
      const setup = await callJson<PrintSetup>(url);
      return callJson<PrintSetup>(url, { method: 'PUT', body: { ...setup, colourPathId: pathId } });
    },
    onSuccess: () => {
      for (const key of ['setups', 'paths', 'shop', 'proposal', 'preview']) {
        void client.invalidateQueries({ queryKey: [key] });
      }
    },
  });
}
