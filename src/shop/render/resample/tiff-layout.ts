import { closeSync, openSync, readSync } from 'node:fs';
import { Problem } from '#craft/problem';

/** Where the pixels of an uncompressed TIFF stand: rows follow each other from `dataOffset`. */
export interface TiffLayout {
  readonly width: number;
  readonly height: number;
  readonly samplesPerPixel: number;
  readonly bitsPerSample: 8 | 16;
  readonly dataOffset: number;
}

const tag = {
  width: 256,
  height: 257,
  bits: 258,
  compression: 259,
  stripOffsets: 273,
  samples: 277,
  stripBytes: 279,
};
const typeBytes: Record<number, number> = { 1: 1, 3: 2, 4: 4, 16: 8 };

/**
 * Read the layout of a TIFF (or BigTIFF) that libvips has just written without compression, in this machine's
 * byte order, one contiguous run of strips. Anything else is a fault of ours, not of the person's file.
 */
export function readTiffLayout(path: string): TiffLayout {
  const fd = openSync(path, 'r');
  try {
    const head = readAt(fd, 0, 16);
    const little = head.toString('latin1', 0, 2) === 'II';
    const big = (little ? head.readUInt16LE(2) : head.readUInt16BE(2)) === 43;
    if (!little) throw layoutFault(path);
    const directory = big ? Number(head.readBigUInt64LE(8)) : head.readUInt32LE(4);
    const tags = readDirectory(fd, directory, big);
    const one = (name: number) => tags.get(name)?.[0];
    const offsets = tags.get(tag.stripOffsets);
    const counts = tags.get(tag.stripBytes);
    const bits = one(tag.bits);
    const contiguous =
      offsets !== undefined &&
      counts !== undefined &&
      offsets.every((offset, index) => index === 0 || offset === offsets[index - 1]! + counts[index - 1]!);
    if (!contiguous || one(tag.compression) !== 1 || (bits !== 8 && bits !== 16)) throw layoutFault(path);
    return {
      width: one(tag.width)!,
      height: one(tag.height)!,
      samplesPerPixel: one(tag.samples) ?? 1,
      bitsPerSample: bits,
      dataOffset: offsets[0]!,
    };
  } finally {
    closeSync(fd);
  }
}

function readDirectory(fd: number, at: number, big: boolean): Map<number, number[]> {
  const countBytes = big ? 8 : 2;
  const entryBytes = big ? 20 : 12;
  const inlineBytes = big ? 8 : 4;
  const countBuffer = readAt(fd, at, countBytes);
  const entries = big ? Number(countBuffer.readBigUInt64LE(0)) : countBuffer.readUInt16LE(0);
  const table = readAt(fd, at + countBytes, entries * entryBytes);
  const tags = new Map<number, number[]>();
  for (let entry = 0; entry < entries; entry += 1) {
    const o = entry * entryBytes;
    const size = typeBytes[table.readUInt16LE(o + 2)];
    if (size === undefined) continue;
    const count = big ? Number(table.readBigUInt64LE(o + 4)) : table.readUInt32LE(o + 4);
    const valueAt = o + entryBytes - inlineBytes;
    const inline = count * size <= inlineBytes;
    const far = big ? Number(table.readBigUInt64LE(valueAt)) : table.readUInt32LE(valueAt);
    const values = inline ? table.subarray(valueAt, valueAt + count * size) : readAt(fd, far, count * size);
    tags.set(
      table.readUInt16LE(o),
      Array.from({ length: count }, (_, index) => readNumber(values, index * size, size)),
    );
  }
  return tags;
}

function readNumber(buffer: Buffer, at: number, size: number): number {
  if (size === 8) return Number(buffer.readBigUInt64LE(at));
  return buffer.readUIntLE(at, size);
}

function readAt(fd: number, position: number, length: number): Buffer {
  const buffer = Buffer.alloc(length);
  const got = readSync(fd, buffer, 0, length, position);
  return buffer.subarray(0, got);
}

function layoutFault(where: string): Problem {
  return new Problem('internal.fault', 'The resampled picture is not laid out as expected.', {
    remedy: 'Report this with the artwork that causes it.',
    where,
  });
}
