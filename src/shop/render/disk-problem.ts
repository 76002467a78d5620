import { isProblem, Problem } from '#craft/problem';

/** A full or failing disk as a Problem; null when the error is about something else. */
export function asDiskProblem(error: unknown): Problem | null {
  if (isProblem(error)) return error;
  const code = (error as { code?: unknown } | null)?.code;
  const text = error instanceof Error ? error.message : String(error);
  if (code === 'ENOSPC' || code === 'EDQUOT' || /no space left|disk quota|ENOSPC|EDQUOT/i.test(text)) {
    return new Problem('disk.full', 'There is no room left on the disk for this sheet.', {
      remedy: 'Free some space, then make it again; nothing half-written was kept.',
      cause: error,
    });
  }
  if (
    code === 'EIO' ||
    code === 'EROFS' ||
    code === 'EACCES' ||
    code === 'EPERM' ||
    code === 'EFBIG' ||
    code === 'EISDIR' ||
    code === 'EMFILE' ||
    code === 'ENFILE'
  ) {
    return new Problem('disk.failed', 'The file could not be written.', {
      remedy: 'Check that the folder may be written to and that the disk is sound.',
      cause: error,
    });
  }
  return null;
}

/** Refuse before starting when the folder plainly has not the room. */
export function noRoom(neededBytes: number, freeBytes: number): Problem {
  const size = (bytes: number) =>
    bytes < 1e9 ? `${Math.ceil(bytes / 1e6)} MB` : `${(bytes / 1e9).toFixed(1)} GB`;
  return new Problem(
    'disk.full',
    `Making this needs ${size(neededBytes)} on the disk for a while, and ${size(freeBytes)} are free.`,
    { remedy: 'Free some space, then make it again.' },
  );
}
