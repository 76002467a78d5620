import { mkdir, stat } from 'node:fs/promises';
import path from 'node:path';
import { Problem } from '#craft/problem';

/**
 * Makes a folder and those above it where they are wanting, one by one: Node's own recursive mkdir goes round for
 * ever where a file system refuses new folders (/proc). Errors: disk.failed when a file stands in the way or there
 * can be no folder; other system errors as they are.
 */
export async function makeFolder(folder: string): Promise<void> {
  const there = await stat(folder).catch((error: NodeJS.ErrnoException) => {
    // A file further up: found when it is come to.
    if (error.code === 'ENOENT' || error.code === 'ENOTDIR') return null;
    throw error;
  });
  if (there?.isDirectory()) return;
  if (there !== null) {
    throw new Problem('disk.failed', `${folder} is a file, not a folder.`, {
      remedy: 'Name a folder; it is made if it is not there.',
    });
  }
  const above = path.dirname(folder);
  if (above !== folder) await makeFolder(above);
  try {
    await mkdir(folder);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') return;
    if (code !== 'ENOENT') throw error;
    throw new Problem('disk.failed', `No folder can be made at ${folder}.`, {
      remedy: 'Name a folder on an ordinary disk, one that you may write to.',
      cause: error,
    });
  }
}
