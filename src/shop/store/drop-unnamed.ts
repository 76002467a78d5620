import type { Records } from './records.js';

/** Removes kept content that no record names any more, or never came to name. */
export async function dropUnnamed(
  parts: { readonly records: Records; readonly files: { remove(hash: string): Promise<void> } },
  hashes: readonly string[],
): Promise<void> {
  for (const hash of hashes) if (!(await parts.records.names(hash))) await parts.files.remove(hash);
}
