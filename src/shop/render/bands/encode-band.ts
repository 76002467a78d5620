import { constants, crc32, deflateRawSync, deflateSync } from 'node:zlib';
import { adler32 } from './adler32.js';
import type { BandEncoding } from './band-job.js';
import { bigEndian, filterRows } from './png-rows.js';
import type { Samples } from './samples.js';

/** Level 1 over filtered rows: photographs come out smaller than at level 6 over plain ones, and sooner (bench/sheet). */
const level = 1;
const idat = Buffer.from('IDAT', 'latin1');

export interface EncodedRows {
  readonly bytes: Uint8Array;
  readonly adler: number;
  readonly filteredBytes: number;
  readonly crc: number;
}

/** Finished rows as the file formats take them. */
export function encodeRows(
  samples: Samples,
  width: number,
  encoding: BandEncoding,
  endsStream: boolean,
): EncodedRows {
  if (encoding === 'raw') {
    const bytes = new Uint8Array(samples.buffer as ArrayBuffer, samples.byteOffset, samples.byteLength);
    return { bytes, adler: 0, filteredBytes: 0, crc: 0 };
  }
  if (encoding === 'tiff') {
    const bytes = deflateSync(differenced(samples, width), {
      level,
      chunkSize: chunkFor(samples.byteLength),
    });
    return { bytes, adler: 0, filteredBytes: 0, crc: 0 };
  }
  const plain = samples instanceof Uint16Array ? bigEndian(samples) : samples;
  const pixelBytes = 3 * samples.BYTES_PER_ELEMENT;
  const filtered = filterRows(plain, width * pixelBytes, pixelBytes);
  // Flushed to a byte boundary without ending, bands deflated apart can be put one after the other (RFC 1951).
  const bytes = deflateRawSync(filtered, {
    level,
    chunkSize: chunkFor(filtered.length),
    finishFlush: endsStream ? constants.Z_FINISH : constants.Z_SYNC_FLUSH,
  });
  return { bytes, adler: adler32(filtered), filteredBytes: filtered.length, crc: crc32(bytes, crc32(idat)) };
}

/** TIFF predictor 2 (TIFF 6.0, section 14): each sample less the one a pixel to its left, in place. */
function differenced(samples: Samples, width: number): Uint8Array {
  const rowSamples = width * 3;
  for (let end = samples.length; end > 0; end -= rowSamples) {
    const start = end - rowSamples;
    for (let index = end - 1; index >= start + 3; index -= 1)
      samples[index] = samples[index]! - samples[index - 3]!;
  }
  return new Uint8Array(samples.buffer as ArrayBuffer, samples.byteOffset, samples.byteLength);
}

function chunkFor(bytes: number): number {
  return Math.max(65536, Math.ceil(bytes / 2));
}
