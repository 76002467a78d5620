import { randomUUID } from 'node:crypto';
import { type FileHandle, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { Problem } from '#craft/problem';
import { asDiskProblem } from '../disk-problem.js';

/** A file that is either whole under its name or not there: written beside it, synced, then renamed. */
export class OutFile {
  readonly #handle: FileHandle;
  readonly #temporary: string;
  readonly #final: string;
  #position = 0;

  private constructor(handle: FileHandle, temporary: string, final: string) {
    this.#handle = handle;
    this.#temporary = temporary;
    this.#final = final;
  }

  static async create(final: string): Promise<OutFile> {
    const temporary = path.join(path.dirname(final), `.${path.basename(final)}.${randomUUID()}.part`);
    try {
      return new OutFile(await open(temporary, 'wx'), temporary, final);
    } catch (error) {
      const { code } = error as NodeJS.ErrnoException;
      if (code === 'ENOENT' || code === 'ENOTDIR') throw noFolder(path.dirname(final), error);
      throw asDiskProblem(error) ?? error;
    }
  }

  /** Where the next byte goes. */
  get position(): number {
    return this.#position;
  }

  async append(...parts: readonly Uint8Array[]): Promise<void> {
    try {
      for (const part of parts) {
        await this.#write(part, this.#position);
        this.#position += part.length;
      }
    } catch (error) {
      throw asDiskProblem(error) ?? error;
    }
  }

  /** Overwrite bytes already written. */
  async patch(bytes: Uint8Array, position: number): Promise<void> {
    await this.#write(bytes, position);
  }

  /** Sync, rename, sync the folder. Returns the length in bytes. */
  async commit(): Promise<number> {
    try {
      await this.#handle.sync();
      await this.#handle.close();
      await rename(this.#temporary, this.#final);
      await syncFolder(path.dirname(this.#final));
      return this.#position;
    } catch (error) {
      throw asDiskProblem(error) ?? error;
    }
  }

  /** Leave nothing behind; harmless after commit. */
  async discard(): Promise<void> {
    await this.#handle.close().catch(() => undefined);
    await rm(this.#temporary, { force: true });
  }

  async #write(bytes: Uint8Array, position: number): Promise<void> {
    let done = 0;
    while (done < bytes.length) {
      const { bytesWritten } = await this.#handle.write(bytes, done, bytes.length - done, position + done);
      done += bytesWritten;
    }
  }
}

function noFolder(folder: string, cause: unknown): Problem {
  return new Problem('disk.failed', `There is no folder ${folder} to write to.`, {
    remedy: 'Make the folder first, or name another.',
    cause,
  });
}

async function syncFolder(folder: string): Promise<void> {
  // Not every system lets a folder be opened; the file itself is synced already.
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}
