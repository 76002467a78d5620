import { deflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { noise } from '../testing/tiff-by-hand.js';
import { adler32, joinAdler32 } from './adler32.js';

/** zlib's own sum stands in the last four bytes of a zlib stream (RFC 1950). */
const zlibs = (bytes: Uint8Array) => deflateSync(bytes).readUInt32BE(deflateSync(bytes).length - 4);

describe('Adler-32', () => {
  it.each([0, 1, 3799, 3800, 3801, 100_000])('of %i bytes equals zlib’s', (length) => {
    const bytes = noise(new Uint8Array(length), length);
    expect(adler32(bytes)).toBe(zlibs(bytes));
    expect(adler32(new Uint8Array(length).fill(255))).toBe(zlibs(new Uint8Array(length).fill(255)));
  });

  it.each([0, 1, 65520, 65521, 65522, 199_999])('joined at %i equals that of the whole', (cut) => {
    const bytes = noise(new Uint8Array(200_000), 5);
    const joined = joinAdler32(
      adler32(bytes.subarray(0, cut)),
      adler32(bytes.subarray(cut)),
      bytes.length - cut,
    );
    expect(joined).toBe(zlibs(bytes));
  });
});
