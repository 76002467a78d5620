/** Seeded chance: mulberry32 (Tommy Ettinger, public domain). */
export interface Chance {
  /** 0 ≤ x < 1 */
  next(): number;
  between(low: number, high: number): number;
  /** Mean 0, variance 1: the sum of four even draws (Irwin–Hall), near enough to normal for noise, and quick. */
  normal(): number;
  pick<T>(from: readonly T[]): T;
}

export function chanceOf(seed: number): Chance {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
  return {
    next,
    between: (low, high) => low + (high - low) * next(),
    normal: () => (next() + next() + next() + next() - 2) * Math.sqrt(3),
    pick: (from) => from[Math.floor(next() * from.length)]!,
  };
}
