const base = 65521;
/** The most bytes that can be summed before the 32-bit sums must be reduced (RFC 1950, 9). */
const run = 3800;

/** Adler-32 (RFC 1950) of some bytes, from the start value 1. */
export function adler32(bytes: Uint8Array): number {
  let a = 1;
  let b = 0;
  let at = 0;
  while (at < bytes.length) {
    const end = Math.min(at + run, bytes.length);
    for (; at < end; at += 1) {
      a = (a + bytes[at]!) | 0;
      b = (b + a) | 0;
    }
    a %= base;
    b %= base;
  }
  return ((b << 16) | a) >>> 0;
}

/** Adler-32 of two stretches joined, from each one's own and the length of the second. */
export function joinAdler32(first: number, second: number, secondBytes: number): number {
  const a1 = first & 0xffff;
  const b1 = first >>> 16;
  const a2 = second & 0xffff;
  const b2 = second >>> 16;
  const rest = secondBytes % base;
  const a = (a1 + a2 - 1 + base) % base;
  // Every byte sum of the second stretch grows by (a1 − 1), once for each of its bytes.
  const b = (b1 + b2 + ((rest * ((a1 - 1 + base) % base)) % base)) % base;
  return ((b << 16) | a) >>> 0;
}
