import { useCallback, useState } from 'react';
import type { SaidOfLadder } from './ladder-state.js';

const keyOf = (sheetId: string) => `dyewright.ladder.${sheetId}`;

/** What was ticked of a ladder on this device. */
export function saidOfLadder(sheetId: string): SaidOfLadder {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(keyOf(sheetId)) ?? '{}');
    if (typeof found !== 'object' || found === null) return {};
    const { printed, pressed } = found as { printed?: unknown; pressed?: unknown };
    return {
      printed: printed === true,
      pressed: Array.isArray(pressed) ? pressed.filter((one): one is number => typeof one === 'number') : [],
    };
  } catch {
    return {};
  }
}

/** Ticks at the press, kept on this device only; a reading says more than any tick. */
export function useSaidOfLadder(sheetId: string) {
  const [said, setSaid] = useState(() => saidOfLadder(sheetId));
  const say = useCallback(
    (change: SaidOfLadder) => {
      const next = { ...saidOfLadder(sheetId), ...change };
      setSaid(next);
      try {
        localStorage.setItem(keyOf(sheetId), JSON.stringify(next));
      } catch {
        // A browser that keeps nothing: the ticks are gone after a reload.
      }
    },
    [sheetId],
  );
  return { said, say };
}
