import { randomUUID } from 'node:crypto';
import { open, rename, rm, stat } from 'node:fs/promises';
import path from 'node:path';
import { isProblem, Problem } from '#craft/problem';
import { asDiskProblem } from '#shop/files';

/**
 * Looked at before the work, so that nobody waits for a file that cannot be put down. Undefined names are none.
 * Errors: file.missing (no such folder), request.invalid (a folder of that name).
 */
export async function assertPlaces(...files: readonly (string | undefined)[]): Promise<void> {
  for (const file of files) {
    if (file === undefined) continue;
    const folder = path.dirname(path.resolve(file));
    if (!(await stat(folder).catch(() => null))?.isDirectory()) {
      throw new Problem('file.missing', `There is no folder for ${file}.`, {
        remedy: 'Make the folder first, or name a file in another one.',
      });
    }
    if ((await stat(file).catch(() => null))?.isDirectory()) {
      throw new Problem('request.invalid', `${file} is a folder.`, { remedy: 'Name a file.' });
    }
  }
}

/** A file that is whole under its name or not there. Errors: disk.full, disk.failed. */
export async function putBytes(file: string, bytes: Uint8Array | string): Promise<void> {
  const temporary = path.join(path.dirname(path.resolve(file)), `.${randomUUID()}.part`);
  try {
    const handle = await open(temporary, 'wx');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await rename(temporary, path.resolve(file));
  } catch (cause) {
    await rm(temporary, { force: true }).catch(() => undefined);
    const known = asDiskProblem(cause, `writing ${file}`);
    if (isProblem(known) && known.code === 'disk.full') throw known;
    throw new Problem('disk.failed', `${file} cannot be written.`, {
      remedy: 'Name a file in a folder that you may write to.',
      cause,
    });
  }
}
