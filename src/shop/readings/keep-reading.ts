import { createHash } from 'node:crypto';
import type { Reading } from '#contract';
import type { ContentFiles } from '#shop/files';
import { dropUnnamed, type Records } from '#shop/store';
import type { ReadResult } from './read-result.js';
import { cgatsOf } from './reading-table.js';

export interface KeepParts {
  readonly records: Records;
  readonly files: ContentFiles;
}

export interface KeepAs {
  readonly id: string;
  readonly sourceHash: string;
  readonly createdAt: string;
  readonly demo: boolean;
  /** Of a reading that is told anew: the picture stays as it was drawn. */
  readonly overlay?: Reading['overlay'];
}

/** Keeps a reading, all of it or nothing. Errors: disk.full, disk.failed. */
export async function keepReading(parts: KeepParts, result: ReadResult, as: KeepAs): Promise<Reading> {
  const { records, files } = parts;
  const fresh: string[] = [];
  const keep = async (content: Uint8Array | string): Promise<string> => {
    const bytes = typeof content === 'string' ? new TextEncoder().encode(content) : content;
    const hash = createHash('sha256').update(bytes).digest('hex');
    fresh.push(hash);
    return (await files.keep(bytes)).hash;
  };
  try {
    const { facts, kept, overlay } = result;
    const patchesHash = await keep(JSON.stringify(kept));
    const measurementsHash = await keep(cgatsOf(kept.patches, facts, as.createdAt));
    const drawn =
      overlay === null
        ? (as.overlay ?? null)
        : {
            contentHash: await keep(overlay.jpeg),
            widthPixels: overlay.widthPixels,
            heightPixels: overlay.heightPixels,
          };
    const { id, sourceHash, createdAt, demo } = as;
    const reading: Reading = {
      ...facts,
      id,
      sourceHash,
      patchesHash,
      measurementsHash,
      overlay: drawn,
      createdAt,
      demo,
    };
    await records.readings.put(reading);
    return reading;
  } catch (error) {
    await dropUnnamed(parts, fresh).catch(() => undefined);
    throw error;
  }
}

export const contentOf = ({ patchesHash, measurementsHash, overlay }: Reading): string[] => [
  patchesHash,
  measurementsHash,
  ...(overlay === null ? [] : [overlay.contentHash]),
];
