import { isProblem, Problem } from '#craft/problem';

/** Errors of the system that mean 'no room left', by name: POSIX ENOSPC and EDQUOT, SQLite's SQLITE_FULL. */
const fullCodes = new Set(['ENOSPC', 'EDQUOT', 'SQLITE_FULL']);
const diskCodes = new Set([
  'EIO',
  'EROFS',
  'EACCES',
  'EPERM',
  'EMFILE',
  'ENFILE',
  'ENOTDIR',
  'EISDIR',
  'SQLITE_READONLY',
  'SQLITE_CANTOPEN',
]);

/** The file of records is no longer one: sqlite.org/rescode.html. */
const damagedCodes = new Set(['SQLITE_CORRUPT', 'SQLITE_NOTADB']);

/** Turns a failure of disk or database into a Problem; anything else comes back as it is. */
export function asDiskProblem(error: unknown, doing: string): unknown {
  if (isProblem(error)) return error;
  const code = String((error as { code?: unknown } | null)?.code ?? '');
  if (fullCodes.has(code)) {
    return new Problem('disk.full', `The disk was full while ${doing}.`, {
      remedy:
        'Free some space on the disk that holds the shop folder, then try again. Nothing half-written was left behind.',
      cause: error,
    });
  }
  if (damagedCodes.has(code)) {
    return new Problem('disk.failed', 'The shop’s records (shop.sqlite in the shop folder) are damaged.', {
      remedy: 'Put the shop folder back from a copy, or name another one. Nothing was changed in it.',
      cause: error,
    });
  }
  if (diskCodes.has(code) || code.startsWith('SQLITE_IOERR')) {
    return new Problem('disk.failed', `The disk refused while ${doing} (${code}).`, {
      remedy:
        'Check that the shop folder can be read and written by you and that the disk is sound, then try again.',
      cause: error,
    });
  }
  return error;
}

/** Runs work on the disk and lets only Problems out for what disks do. */
export async function onDisk<T>(doing: string, work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    throw asDiskProblem(error, doing);
  }
}
