// From four pixels of 32-bit R, G, B, 0 to interleaved samples. The 16 bytes hold 12 that count and 4 that do not:
// the latter come last, or first when the order is reversed, so the next store covers them.

/** Four pixels of 0..255 → 12 bytes of RGB among 16, as `order` (a swizzle) says. */
// @ts-ignore: decorator
@inline
export function pack8(p0: v128, p1: v128, p2: v128, p3: v128, order: v128): v128 {
  const words = i16x8.narrow_i32x4_u(p0, p1);
  const more = i16x8.narrow_i32x4_u(p2, p3);
  return i8x16.swizzle(i8x16.narrow_i16x8_u(words, more), order);
}

/** Two pixels of 0..65535 → 12 bytes of RGB among 16. */
// @ts-ignore: decorator
@inline
export function pack16(p0: v128, p1: v128, order: v128): v128 {
  return i8x16.swizzle(i16x8.narrow_i32x4_u(p0, p1), order);
}
