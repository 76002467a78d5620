import { useNavigate, useSearch } from '@tanstack/react-router';
import { useCallback, useMemo } from 'react';
import type { SheetRequestInput } from '#contract';
import { useArtworks, useBlanks, useSetups } from '../api/index.js';
import type { SheetSearch } from './search.js';

const lastSetupKey = 'dyewright.setup';
const remembered = (): string | null => {
  try {
    return localStorage.getItem(lastSetupKey);
  } catch {
    return null;
  }
};

/** What is chosen on the Sheet place: kept in the address, looked up in the shop. */
export function useSheetChoice() {
  const search = useSearch({ from: '/' });
  const navigate = useNavigate({ from: '/' });
  const artworks = useArtworks();
  const blanks = useBlanks();
  const setups = useSetups();

  const artwork = artworks.data?.find((a) => a.id === search.artwork) ?? null;
  const blank = blanks.data?.find((b) => b.id === search.blank) ?? null;
  const setupId = search.setup ?? remembered() ?? undefined;
  const setup =
    setups.data?.find((s) => s.id === setupId) ??
    (setups.data?.length === 1 ? (setups.data[0] ?? null) : null);

  const choose = useCallback(
    (change: Partial<SheetSearch>, how: 'push' | 'replace' = 'push') => {
      if (change.setup) {
        try {
          localStorage.setItem(lastSetupKey, change.setup);
        } catch {
          // A browser that keeps nothing: the setup is asked for again next time.
        }
      }
      void navigate({
        search: (old) => ({ ...old, ...change }),
        replace: how === 'replace',
        resetScroll: false,
      });
    },
    [navigate],
  );

  const request = useMemo<SheetRequestInput | null>(() => {
    if (!artwork || !blank || !setup) return null;
    const { placement, copies, bleedMm, intent, blackPointCompensation } = search;
    return {
      artworkId: artwork.id,
      blankId: blank.id,
      setupId: setup.id,
      ...(placement ? { placement } : {}),
      ...(copies === undefined ? {} : { copies }),
      ...(bleedMm === undefined ? {} : { bleedMm }),
      ...(intent ? { intent } : {}),
      ...(blackPointCompensation === undefined ? {} : { blackPointCompensation }),
    };
  }, [artwork, blank, setup, search]);

  return { search, choose, artwork, blank, setup, artworks, blanks, setups, request };
}
