/**
 * Levels for things of a width along a line, so that none lies on another: each takes the first level that is free
 * where it stands. At most `most` levels; what finds none free takes the last.
 */
export function levelsOf(places: readonly number[], width: number, most: number): number[] {
  const ends: number[] = [];
  const out = new Array<number>(places.length).fill(0);
  const order = places.map((_, i) => i).sort((one, two) => (places[one] ?? 0) - (places[two] ?? 0));
  for (const i of order) {
    const at = places[i] ?? 0;
    const free = ends.findIndex((end) => end <= at);
    const level = Math.min(free < 0 ? ends.length : free, most - 1);
    ends[level] = at + width;
    out[i] = level;
  }
  return out;
}
