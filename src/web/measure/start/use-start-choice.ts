import { useNavigate, useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import { useArtworks, useBlanks, useColourPaths, useSetups } from '../../api/index.js';
import { lastSetup, rememberSetup } from '../../test-sheet/index.js';
import type { MeasureSearch } from '../search.js';
import { patchBounds, type StartChoice, type StartKind } from './order.js';

type Local = Pick<StartChoice, 'patches' | 'size' | 'ownMm' | 'material' | 'towards'>;

/** What is chosen for a test sheet: the records in the address, the rest here. */
export function useStartChoice(kind: StartKind) {
  const search = useSearch({ from: '/measure' });
  const navigate = useNavigate({ from: '/measure' });
  const setups = useSetups();
  const blanks = useBlanks();
  const paths = useColourPaths();
  const artworks = useArtworks();
  const [local, setLocal] = useState<Local>({
    patches: kind in patchBounds ? patchBounds[kind as keyof typeof patchBounds].usual : 0,
    size: 'paper',
    ownMm: { widthMm: 210, heightMm: 297 },
    material: null,
    towards: search.artwork ? 'artwork' : 'doubt',
  });
  const change = (next: Partial<Local>) => setLocal((old) => ({ ...old, ...next }));
  const choose = (next: Partial<MeasureSearch>) => {
    if (next.setup) rememberSetup(next.setup);
    void navigate({ search: (old) => ({ ...old, ...next }), replace: true, resetScroll: false });
  };

  const path = paths.data?.find((one) => one.id === search.path) ?? null;
  // A path's sheets are printed and pressed as the path was, unless something else is chosen.
  const setupId = search.setup ?? path?.belongsTo?.setup.id ?? lastSetup();
  const blankId = search.blank ?? path?.belongsTo?.blank.id;
  const choice: StartChoice = {
    kind,
    setup:
      setups.data?.find((one) => one.id === setupId) ??
      (setups.data?.length === 1 ? (setups.data[0] ?? null) : null),
    blank: blanks.data?.find((one) => one.id === blankId) ?? null,
    path,
    artworkId: search.artwork ?? null,
    ...local,
  };
  return {
    choice,
    change,
    choose,
    setups: setups.data ?? [],
    blanks: blanks.data ?? [],
    paths: paths.data ?? [],
    artworks: artworks.data ?? [],
    error: setups.error ?? blanks.error ?? paths.error,
  };
}
export type StartState = ReturnType<typeof useStartChoice>;
