import { randomUUID } from 'node:crypto';
import path from 'node:path';
import { onDisk } from './disk-problems.js';
import type { FileSystemPort } from './file-system.js';

/**
 * The folder for everything half-made. It lies inside the shop folder, so that a finished file is one rename
 * (never a copy across disks) away from its place, and it is emptied when the shop opens.
 */
export class Scratch {
  constructor(
    readonly folder: string,
    private readonly fs: FileSystemPort,
  ) {}

  /** Removes what a crash left behind. Only call with the shop's lock held. */
  async clear(): Promise<void> {
    await onDisk('clearing the scratch folder', async () => {
      await this.fs.mkdir(this.folder);
      for (const name of await this.fs.list(this.folder)) await this.fs.remove(path.join(this.folder, name));
    });
  }

  /** A path for one temporary file. The name is ours alone: nothing a person typed becomes part of a path. */
  file(extension = 'tmp'): string {
    return path.join(this.folder, `${randomUUID()}.${extension}`);
  }

  /** Gives work a folder of its own and removes it with all in it, however the work ends. */
  async within<T>(work: (folder: string) => Promise<T>): Promise<T> {
    const folder = path.join(this.folder, randomUUID());
    await onDisk('making a scratch folder', () => this.fs.mkdir(folder));
    try {
      return await work(folder);
    } finally {
      await this.fs.remove(folder).catch(() => undefined);
    }
  }

  async discard(file: string): Promise<void> {
    await this.fs.remove(file).catch(() => undefined);
  }
}
