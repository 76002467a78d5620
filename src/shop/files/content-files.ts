import { createHash } from 'node:crypto';
import path from 'node:path';
import type { Readable } from 'node:stream';
import { Problem } from '#craft/problem';
import { onDisk } from './disk-problems.js';
import { type FileSystemPort, syncFolder } from './file-system.js';
import type { Scratch } from './scratch.js';

export interface KeptFile {
  /** SHA-256 of the content, hexadecimal. */
  readonly hash: string;
  readonly bytes: number;
}

const hashForm = /^[0-9a-f]{64}$/;

/**
 * Files by the hash of their content: `files/ab/abcdef…`. A file is written under a scratch name, synced,
 * renamed into place, and its folder synced; so what is there is whole, and stays through a power cut.
 */
export class ContentFiles {
  constructor(
    private readonly folder: string,
    private readonly scratch: Scratch,
    private readonly fs: FileSystemPort,
  ) {}

  /** Keeps bytes as they come. Errors: disk.full, disk.failed, or whatever the source throws (a limit passed). */
  async keep(source: AsyncIterable<Uint8Array> | Uint8Array): Promise<KeptFile> {
    const temporary = this.scratch.file();
    try {
      const kept = await this.write(temporary, source instanceof Uint8Array ? [source] : source);
      await this.moveIn(temporary, kept.hash);
      return kept;
    } finally {
      await this.scratch.discard(temporary);
    }
  }

  /** Takes over a finished file from the scratch folder: read once for its hash, then renamed, never copied. */
  async adopt(temporary: string): Promise<KeptFile> {
    const hash = createHash('sha256');
    let bytes = 0;
    await onDisk('keeping the file', async () => {
      for await (const chunk of this.fs.read(temporary)) {
        hash.update(chunk as Uint8Array);
        bytes += (chunk as Uint8Array).byteLength;
      }
      // 'r+': Windows flushes only what was opened for writing.
      const handle = await this.fs.open(temporary, 'r+');
      try {
        await handle.sync();
      } finally {
        await handle.close();
      }
    });
    const kept = { hash: hash.digest('hex'), bytes };
    await this.moveIn(temporary, kept.hash);
    return kept;
  }

  /** Where the file stands. Errors: request.invalid for anything but a hash, file.missing. */
  async pathOf(hash: string): Promise<string> {
    const file = this.place(hash);
    if ((await onDisk('looking for a file', () => this.fs.size(file))) === null) throw missing(hash);
    return file;
  }

  async has(hash: string): Promise<boolean> {
    return (await onDisk('looking for a file', () => this.fs.size(this.place(hash)))) !== null;
  }

  async open(hash: string): Promise<{ stream: Readable; bytes: number }> {
    const file = this.place(hash);
    const bytes = await onDisk('opening a file', () => this.fs.size(file));
    if (bytes === null) throw missing(hash);
    return { stream: this.fs.read(file), bytes };
  }

  /** All of a small file. */
  async bytesOf(hash: string): Promise<Uint8Array> {
    const { stream } = await this.open(hash);
    return onDisk('reading a file', async () => {
      const chunks: Uint8Array[] = [];
      for await (const chunk of stream) chunks.push(chunk as Uint8Array);
      return new Uint8Array(Buffer.concat(chunks));
    });
  }

  /** True when the content still has the hash it is kept under. */
  async isWhole(hash: string): Promise<boolean> {
    const { stream } = await this.open(hash);
    const digest = createHash('sha256');
    await onDisk('reading a file', async () => {
      for await (const chunk of stream) digest.update(chunk as Uint8Array);
    });
    return digest.digest('hex') === hash;
  }

  async remove(hash: string): Promise<void> {
    await onDisk('removing a file', () => this.fs.remove(this.place(hash)));
  }

  private place(hash: string): string {
    if (!hashForm.test(hash)) {
      throw new Problem('request.invalid', 'A file is named by its SHA-256 in hexadecimal.', {
        remedy: 'Take the name from the record.',
      });
    }
    return path.join(this.folder, hash.slice(0, 2), hash);
  }

  private write(
    temporary: string,
    source: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  ): Promise<KeptFile> {
    return onDisk('keeping the file', async () => {
      const digest = createHash('sha256');
      let bytes = 0;
      const handle = await this.fs.open(temporary, 'wx');
      try {
        for await (const chunk of source) {
          digest.update(chunk);
          bytes += chunk.byteLength;
          await handle.write(chunk);
        }
        await handle.sync();
      } finally {
        await handle.close();
      }
      return { hash: digest.digest('hex'), bytes };
    });
  }

  private async moveIn(temporary: string, hash: string): Promise<void> {
    const place = this.place(hash);
    const folder = path.dirname(place);
    await onDisk('keeping the file', async () => {
      await this.fs.mkdir(folder);
      // Renaming over a file of the same name is right: the same hash is the same content, and if the disk
      // spoiled the old one this mends it.
      await this.fs.rename(temporary, place);
      await syncFolder(this.fs, folder);
      await syncFolder(this.fs, this.folder);
    });
  }
}

function missing(hash: string): Problem {
  return new Problem('file.missing', `The file ${hash.slice(0, 12)}… is no longer in the shop folder.`, {
    remedy: 'Put the shop folder back from a copy, or give the file again.',
  });
}
