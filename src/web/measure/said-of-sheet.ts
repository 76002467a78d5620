import { useCallback, useState } from 'react';
import type { SaidOfSheet } from './round-state.js';

const keyOf = (sheetId: string) => `dyewright.round.${sheetId}`;

/** What was said of a sheet on this device. */
export function saidOf(sheetId: string): SaidOfSheet {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(keyOf(sheetId)) ?? '{}');
    return typeof found === 'object' && found !== null ? (found as SaidOfSheet) : {};
  } catch {
    return {};
  }
}

/** Ticks of a round: printed, pressed. Kept on this device only; a reading says more than any tick. */
export function useSaidOfSheet(sheetId: string) {
  const [said, setSaid] = useState(() => saidOf(sheetId));
  const say = useCallback(
    (change: SaidOfSheet) => {
      const next = { ...saidOf(sheetId), ...change };
      setSaid(next);
      try {
        localStorage.setItem(keyOf(sheetId), JSON.stringify(next));
      } catch {
        // A browser that keeps nothing: the tick is gone after a reload.
      }
    },
    [sheetId],
  );
  return { said, say };
}
