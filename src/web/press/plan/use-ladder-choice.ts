import { useNavigate, useSearch } from '@tanstack/react-router';
import { useState } from 'react';
import { useBlanks, usePresses, useSetups } from '../../api/index.js';
import { lastSetup, rememberSetup } from '../../test-sheet/index.js';
import type { NewLadderSearch } from '../search.js';
import { couponBounds, type LadderChoice } from './plan-order.js';

type Local = Pick<LadderChoice, 'coupons' | 'factors' | 'ranges' | 'start' | 'limits'>;

/** What is chosen for a ladder: the records in the address, the rest here. */
export function useLadderChoice() {
  const search = useSearch({ from: '/press/ladder/new' });
  const navigate = useNavigate({ from: '/press/ladder/new' });
  const setups = useSetups();
  const blanks = useBlanks();
  const presses = usePresses();
  const [local, setLocal] = useState<Local>(() => ({
    coupons: couponBounds.usual,
    factors: ['time'],
    ranges: {},
    start:
      search.platenC !== undefined && search.seconds !== undefined
        ? { platenC: search.platenC, dwellSeconds: search.seconds }
        : null,
    limits: null,
  }));
  const setupId = search.setup ?? lastSetup();
  const choice: LadderChoice = {
    ...local,
    setup:
      setups.data?.find((one) => one.id === setupId) ??
      (setups.data?.length === 1 ? (setups.data[0] ?? null) : null),
    blank: blanks.data?.find((one) => one.id === search.blank) ?? null,
    pressId: presses.data?.find((one) => one.id === search.press)?.id ?? null,
  };
  return {
    choice,
    change: (next: Partial<Local>) => setLocal((old) => ({ ...old, ...next })),
    choose: (next: Partial<NewLadderSearch>) => {
      if (next.setup) rememberSetup(next.setup);
      // Another blank has another recipe and other limits.
      if (next.blank) setLocal((old) => ({ ...old, ranges: {}, start: null, limits: null }));
      void navigate({ search: (old) => ({ ...old, ...next }), replace: true, resetScroll: false });
    },
    setups: setups.data ?? [],
    blanks: blanks.data ?? [],
    presses: presses.data ?? [],
    error: setups.error ?? blanks.error ?? presses.error,
  };
}
