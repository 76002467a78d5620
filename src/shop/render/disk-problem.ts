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
  if (code === 'EIO' || code === 'EROFS' || code === 'EACCES' || code === 'EPERM' || code === 'EFBIG') {
    return new Problem('disk.failed', 'The file could not be written.', {
      remedy: 'Check that the folder may be written to and that the disk is sound.',
      cause: error,
    });
  }
  return null;
}

/** Refuse before starting when the folder plainly has not the room. */
export function noRoom(neededBytes: number, freeBytes: number): Problem {
  const gigabytes = (bytes: number) => (bytes / 1e9).toFixed(1);
  return new Problem(
    'disk.full',
    `Making this needs ${gigabytes(neededBytes)} GB on the disk for a while, and ${gigabytes(freeBytes)} GB are free.`,
    { remedy: 'Free some space, then make it again.' },
  );
}
