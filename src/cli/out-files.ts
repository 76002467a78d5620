import { randomUUID } from 'node:crypto';
import { access, constants, copyFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { isProblem, Problem } from '#craft/problem';
import { asDiskProblem, makeFolder } from '#shop/files';

/**
 * The folder that files will be written to, made where it is wanting. Called before the work, so that nobody waits
 * for a sheet that cannot be put down. Errors: disk.failed, disk.full.
 */
export async function outFolder(named: string): Promise<string> {
  const folder = path.resolve(named);
  try {
    await makeFolder(folder);
    await access(folder, constants.W_OK | constants.X_OK);
  } catch (error) {
    throw cannotWrite(named, error);
  }
  return folder;
}

/** A copy that is whole under its name or not there. Errors: disk.full, disk.failed. */
export async function putFile(from: string, to: string): Promise<void> {
  const temporary = path.join(path.dirname(to), `.${randomUUID()}.part`);
  try {
    await copyFile(from, temporary);
    await rename(temporary, to);
  } catch (error) {
    await rm(temporary, { force: true }).catch(() => undefined);
    throw cannotWrite(to, error);
  }
}

function cannotWrite(named: string, error: unknown): unknown {
  if (isProblem(error)) return error;
  const known = asDiskProblem(error, 'the files were being put down');
  if (isProblem(known) && known.code === 'disk.full') return known;
  return new Problem('disk.failed', `${named} cannot be written to.`, {
    remedy: 'Name another folder after --out, one that you may write to.',
    cause: error,
  });
}
