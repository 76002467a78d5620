import type { Records } from '#shop/store';

/** An id made from a name, that no colour path has. */
export async function freeId(records: Records, name: string): Promise<string> {
  const base =
    name
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 48)
      .replace(/-+$/, '') || 'path';
  for (let number = 1; ; number += 1) {
    const id = number === 1 ? base : `${base}-${number}`;
    if ((await records.colourPaths.get(id)) === undefined) return id;
  }
}
