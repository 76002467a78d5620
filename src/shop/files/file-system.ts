import { createReadStream } from 'node:fs';
import { type FileHandle, open, readdir, rename, rm, stat } from 'node:fs/promises';
import type { Readable } from 'node:stream';
import { makeFolder } from './make-folder.js';

/** The few calls the shop makes to the disk; tests give one that fails the way full or broken disks do. */
export interface FileSystemPort {
  mkdir(folder: string): Promise<void>;
  open(path: string, flags: 'wx' | 'r' | 'r+'): Promise<OpenFile>;
  rename(from: string, to: string): Promise<void>;
  /** Removes a file or a folder with all in it; nothing there is no error. */
  remove(path: string): Promise<void>;
  list(folder: string): Promise<string[]>;
  /** Size in bytes, or null when there is no such file. */
  size(path: string): Promise<number | null>;
  read(path: string, range?: { start: number; end: number }): Readable;
}

export interface OpenFile {
  write(bytes: Uint8Array): Promise<void>;
  sync(): Promise<void>;
  close(): Promise<void>;
}

/** The disk as it is. */
export const nodeFileSystem: FileSystemPort = {
  mkdir: makeFolder,
  async open(path, flags) {
    return wrap(await open(path, flags));
  },
  rename,
  async remove(path) {
    await rm(path, { recursive: true, force: true, maxRetries: 2 });
  },
  list: (folder) => readdir(folder),
  async size(path) {
    try {
      return (await stat(path)).size;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code === 'ENOENT') return null;
      throw error;
    }
  },
  read: (path, range) => createReadStream(path, range),
};

function wrap(handle: FileHandle): OpenFile {
  return {
    async write(bytes) {
      // FileHandle.write may write less than was asked for (POSIX write(2)): go on until all is out.
      let offset = 0;
      while (offset < bytes.byteLength) {
        const { bytesWritten } = await handle.write(bytes, offset, bytes.byteLength - offset);
        offset += bytesWritten;
      }
    },
    sync: () => handle.sync(),
    close: () => handle.close(),
  };
}

/** Makes a finished rename last through a power cut. Windows cannot open folders and needs no such call. */
export async function syncFolder(fs: FileSystemPort, folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await fs.open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}
