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
    // Eight bytes at a time: b gains a before them eight times, and each byte as often as it is summed.
    for (const end8 = at + ((end - at) & ~7); at < end8; at += 8) {
      const [b0, b1, b2, b3] = [bytes[at]!, bytes[at + 1]!, bytes[at + 2]!, bytes[at + 3]!];
      const [b4, b5, b6, b7] = [bytes[at + 4]!, bytes[at + 5]!, bytes[at + 6]!, bytes[at + 7]!];
      b = (b + 8 * (a + b0) + 7 * b1 + 6 * b2 + 5 * b3 + 4 * b4 + 3 * b5 + 2 * b6 + b7) | 0;
      a = (a + b0 + b1 + b2 + b3 + b4 + b5 + b6 + b7) | 0;
    }
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
