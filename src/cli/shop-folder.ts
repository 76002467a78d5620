import { homedir } from 'node:os';
import path from 'node:path';

/**
 * The shop's record outlives any copy of the program, so it lies in the person's home folder unless `--shop` or
 * DYEWRIGHT_SHOP names another.
 */
export function shopFolder(named: string | undefined): string {
  const chosen = named ?? process.env.DYEWRIGHT_SHOP;
  return chosen !== undefined && chosen !== '' ? path.resolve(chosen) : path.join(homedir(), 'Dyewright');
}
