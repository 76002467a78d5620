type Titled = readonly { readonly title: string }[];

/** Which cell each swatch takes, and of how many cells a run is: the columns are a multiple of it. */
export interface PaletteRuns {
  readonly run: number;
  readonly slots: readonly number[];
}

/** One swatch after the other. */
export const unbroken = (swatches: Titled): PaletteRuns => ({ run: 1, slots: swatches.map((_, i) => i) });

/**
 * Families begin where a run of cells begins, so that they stand under one another: neighbours whose titles end in the
 * same word (`pale rose, deep rose`; numbers do not count). Null where there are no such families.
 */
export function familyRuns(swatches: Titled): PaletteRuns | null {
  const sizes: number[] = [];
  let before = '';
  for (const { title } of swatches) {
    const family = familyOf(title);
    if (sizes.length > 0 && family === before) sizes[sizes.length - 1]! += 1;
    else sizes.push(1);
    before = family;
  }
  // One alone (black after the greys) stays with those before it.
  const families: number[] = [];
  for (const size of sizes) {
    if (size === 1 && families.length > 0) families[families.length - 1]! += 1;
    else families.push(size);
  }
  const large = families.filter((size) => size > 2);
  if (large.length < 3) return null;
  const run = commonest(large);
  const slots: number[] = [];
  let next = 0;
  for (const size of families) {
    next = Math.ceil(next / run) * run;
    for (let i = 0; i < size; i += 1) slots.push(next + i);
    next += size;
  }
  return { run, slots };
}

function familyOf(title: string): string {
  const words = title
    .toLowerCase()
    .split(/[^\p{L}]+/u)
    .filter((word) => word !== '');
  return words.at(-1) ?? '';
}

function commonest(sizes: readonly number[]): number {
  const counts = new Map<number, number>();
  for (const size of sizes) counts.set(size, (counts.get(size) ?? 0) + 1);
  return [...counts].sort(([a, m], [b, n]) => n - m || b - a)[0]![0];
}
