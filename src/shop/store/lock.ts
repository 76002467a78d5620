import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import Database from 'better-sqlite3';
import { Problem } from '#craft/problem';

/**
 * Keeps two programs off one shop folder. The lock is a write lock on a tiny SQLite file of its own, held as
 * long as the shop is open: the operating system drops it when the process ends, however it ends, so a dead
 * program's lock never has to be judged stale by its process number (which another program may have by now).
 * `open-by.txt` only tells a person who holds it.
 */
export function lockFolder(folder: string): { release(): void } {
  const note = path.join(folder, 'open-by.txt');
  const lock = new Database(path.join(folder, 'lock.sqlite'), { timeout: 0 });
  try {
    lock.pragma('journal_mode = DELETE');
    lock.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    lock.close();
    if (!String((error as { code?: string }).code).startsWith('SQLITE_BUSY')) throw error;
    throw new Problem('shop.in-use', `Another program has the shop folder open${holder(note)}.`, {
      remedy: 'Close the other one, use the page it serves, or name another shop folder.',
      cause: error,
    });
  }
  try {
    writeFileSync(note, `process ${process.pid}\n`);
  } catch {
    // Only a courtesy: the lock holds without it.
  }
  let held = true;
  return {
    release() {
      if (!held) return;
      held = false;
      lock.exec('ROLLBACK');
      lock.close();
    },
  };
}

function holder(note: string): string {
  try {
    const text = readFileSync(note, 'utf8').trim();
    return /^process \d+$/.test(text) ? ` (${text})` : '';
  } catch {
    return '';
  }
}
