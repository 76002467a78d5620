import { type FileHandle, open } from 'node:fs/promises';

/** What a channel beyond the colours is: TIFF 6.0, p. 31, ExtraSamples. */
const associatedAlpha = 1;
const unassociatedAlpha = 2;
const samplesPerPixelTag = 277;
const photometricTag = 262;
const extraSamplesTag = 338;
/** Colour channels by PhotometricInterpretation (TIFF 6.0, p. 37 and sections 16, 21 and 23). */
const colourChannels: Readonly<Record<number, number>> = { 0: 1, 1: 1, 2: 3, 3: 1, 5: 4, 6: 3, 8: 3 };

/**
 * True when a TIFF's first picture has a channel beyond its colours that the file does not call transparency: a saved
 * selection, a spot colour. libvips takes any fourth channel for transparency and would let the picture fade by it.
 * False also where the file cannot be followed: then the decoder says what is wrong with it.
 */
export async function hasStrayChannel(path: string): Promise<boolean> {
  const file = await open(path, 'r');
  try {
    const tags = await firstDirectory(file);
    const colours = colourChannels[tags.get(photometricTag) ?? -1];
    const samples = tags.get(samplesPerPixelTag) ?? 1;
    if (colours === undefined || samples <= colours) return false;
    const kind = tags.get(extraSamplesTag);
    return samples > colours + 1 || (kind !== associatedAlpha && kind !== unassociatedAlpha);
  } catch {
    return false;
  } finally {
    await file.close();
  }
}

/** The tags of the first directory that have one short or long as value, by number; of a list its first entry. */
async function firstDirectory(file: FileHandle): Promise<Map<number, number>> {
  const head = await read(file, 0, 16);
  const little = head.toString('latin1', 0, 2) === 'II';
  const short = (from: Buffer, at: number) => (little ? from.readUInt16LE(at) : from.readUInt16BE(at));
  const long = (from: Buffer, at: number) => (little ? from.readUInt32LE(at) : from.readUInt32BE(at));
  const wide = (from: Buffer, at: number) =>
    Number(little ? from.readBigUInt64LE(at) : from.readBigUInt64BE(at));
  const big = short(head, 2) === 43;
  const directory = big ? wide(head, 8) : long(head, 4);
  const countBytes = big ? 8 : 2;
  const entryBytes = big ? 20 : 12;
  const count = await read(file, directory, countBytes);
  const entries = Math.min(4096, big ? wide(count, 0) : short(count, 0));
  const table = await read(file, directory + countBytes, entries * entryBytes);
  const tags = new Map<number, number>();
  for (let at = 0; at + entryBytes <= table.length; at += entryBytes) {
    const shorts = short(table, at + 2) === 3;
    const valueAt = at + (big ? 12 : 8);
    // Lists of more than fits here stand elsewhere; of such only ExtraSamples matters, and many are stray anyway.
    tags.set(short(table, at), shorts ? short(table, valueAt) : long(table, valueAt));
  }
  return tags;
}

async function read(file: FileHandle, at: number, length: number): Promise<Buffer> {
  const { buffer, bytesRead } = await file.read(Buffer.alloc(length), 0, length, at);
  return buffer.subarray(0, bytesRead);
}
