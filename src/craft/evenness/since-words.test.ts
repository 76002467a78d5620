import { describe, expect, it } from 'vitest';
import { sinceWords } from './since-words.js';
import type { ComparableMap, Found, Place } from './types.js';

const found = (kind: Found['kind'], value: number, at: Place | null, sd = 0.2): Found => ({
  kind,
  words: '',
  likely: '',
  strength: { value, low: value - 1.645 * sd, high: value + 1.645 * sd },
  at,
});
const map = (of: (across: number, along: number) => number, ...all: Found[]): ComparableMap => ({
  columns: 6,
  rows: 4,
  smooth: Array.from({ length: 24 }, (_, i) => of(((i % 6) + 0.5) / 6, (Math.floor(i / 6) + 0.5) / 4)),
  found: all.length > 0 ? all : [found('even', 0, null)],
  meanDeltaE00: 1,
});
const left = { across: 0, along: 0.5 };
const spot = (value: number, across = 0.7, along = 0.3): Found => found('spot', value, { across, along });

describe('what changed between two maps', () => {
  it.each<[string, ComparableMap, ComparableMap]>([
    ['As even as before.', map(() => 0), map(() => 0)],
    [
      'The tilt towards the front left is as before, within chance.',
      map((u) => 3 * (1 - u), found('tilt', 3, left)),
      map((u) => 3.4 * (1 - u), found('tilt', 3.4, { across: 0, along: 1 })),
    ],
    [
      'The tilt towards the left is worse (5.2 instead of 3.0 ΔE00).',
      map((u) => 3 * (1 - u), found('tilt', 3, left)),
      map((u) => 5.2 * (1 - u), found('tilt', 5.2, left)),
    ],
    [
      'The spot at the back right is new; the rim is gone.',
      map((u) => Math.abs(u - 0.5), found('rim', 2, null)),
      map((u, v) => (u > 0.6 && v < 0.4 ? 2 : 0), spot(2)),
    ],
    ['The tilt towards the left is gone.', map((u) => 3 * (1 - u), found('tilt', 3, left)), map(() => 0)],
    [
      'The same pattern as before, turned by 180°. If the sheet or the pad was turned in between, it goes with that and not with the platen.',
      map((u, v) => (u > 0.6 && v < 0.4 ? 2 : 0), spot(2)),
      map((u, v) => (u < 0.4 && v > 0.6 ? 2 : 0), spot(2, 0.3, 0.7)),
    ],
  ])('%s', (words, before, now) => {
    expect(sinceWords(before, now)).toBe(words);
  });
});
