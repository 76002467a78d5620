// RGB through a grid, 8 bits: tetrahedral interpolation of four pixels at a time in fixed point.
//
// Params (u32 each): 0 entries of red, 4 of green, 8 of blue, 12 diagonal.
// An entry (8 bytes, one for each of 256 input values): a key, fraction · 2^17 + stride of this axis in bytes, the
// fraction in 1/16384; and the byte offset of the lower node along this axis (red's has the grid's address in it).
// A node is four i16: R, G, B, 0 in 1/128 of an 8-bit code, with the 64 that rounds already added.
// Sorting the three keys orders the fractions and carries the strides along, so no tetrahedron is branched to.

import { pack8 } from './pack';

// @ts-ignore: decorator
@inline const KEY_STRIDE: i32 = 0x1ffff;

export function rgb8(params: usize, input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  const red = load<u32>(params, 0);
  const green = load<u32>(params, 4);
  const blue = load<u32>(params, 8);
  const diagonal = load<u32>(params, 12);
  const diagonals = i32x4.splat(diagonal);
  const whole = i32x4.splat(16384);
  const strideBits = i32x4.splat(KEY_STRIDE);
  // The previous group and what became of it: flat areas are copied on, not worked out again.
  let seenLow: u64 = 0;
  let seenHigh: u32 = 0;
  let done = i8x16.splat(0);
  let any = false;

  for (; groups > 0; --groups) {
    const low = load<u64>(input);
    const high = load<u32>(input, 8);
    if (!any || low != seenLow || high != seenHigh) {
      any = true;
      seenLow = low;
      seenHigh = high;
      const low32 = <u32>low;
      const mid32 = <u32>(low >> 32);
      // Entries of pixels 0, 1 and of pixels 2, 3: [key, offset, key, offset].
      const r01 = v128.load64_lane(red + ((low32 >> 24) << 3), v128.load64_zero(red + ((low32 & 255) << 3)), 1);
      const g01 = v128.load64_lane(green + ((mid32 & 255) << 3), v128.load64_zero(green + (((low32 >> 8) & 255) << 3)), 1);
      const b01 = v128.load64_lane(blue + (((mid32 >> 8) & 255) << 3), v128.load64_zero(blue + (((low32 >> 16) & 255) << 3)), 1);
      const r23 = v128.load64_lane(red + (((high >> 8) & 255) << 3), v128.load64_zero(red + (((mid32 >> 16) & 255) << 3)), 1);
      const g23 = v128.load64_lane(green + (((high >> 16) & 255) << 3), v128.load64_zero(green + ((mid32 >> 24) << 3)), 1);
      const b23 = v128.load64_lane(blue + ((high >> 24) << 3), v128.load64_zero(blue + ((high & 255) << 3)), 1);

      const o01 = i32x4.add(i32x4.add(r01, g01), b01);
      const o23 = i32x4.add(i32x4.add(r23, g23), b23);
      const base = v128.shuffle<i32>(o01, o23, 1, 3, 5, 7);
      const r = v128.shuffle<i32>(r01, r23, 0, 2, 4, 6);
      const g = v128.shuffle<i32>(g01, g23, 0, 2, 4, 6);
      const b = v128.shuffle<i32>(b01, b23, 0, 2, 4, 6);

      const max = i32x4.max_u(r, g);
      const min = i32x4.min_u(r, g);
      const key1 = i32x4.max_u(max, b);
      const inner = i32x4.min_u(max, b);
      const key2 = i32x4.max_u(min, inner);
      const key3 = i32x4.min_u(min, inner);

      const second = i32x4.add(base, v128.and(key1, strideBits));
      const third = i32x4.sub(i32x4.add(base, diagonals), v128.and(key3, strideBits));
      const f1 = i32x4.shr_u(key1, 17);
      const f2 = i32x4.shr_u(key2, 17);
      const f3 = i32x4.shr_u(key3, 17);
      const w01 = v128.or(i32x4.sub(whole, f1), i32x4.shl(i32x4.sub(f1, f2), 16));
      const w23 = v128.or(i32x4.sub(f2, f3), i32x4.shl(f3, 16));

      const p0 = blend(i32x4.extract_lane(base, 0), i32x4.extract_lane(second, 0), i32x4.extract_lane(third, 0), diagonal,
        v128.shuffle<i32>(w01, w01, 0, 0, 0, 0), v128.shuffle<i32>(w23, w23, 0, 0, 0, 0));
      const p1 = blend(i32x4.extract_lane(base, 1), i32x4.extract_lane(second, 1), i32x4.extract_lane(third, 1), diagonal,
        v128.shuffle<i32>(w01, w01, 1, 1, 1, 1), v128.shuffle<i32>(w23, w23, 1, 1, 1, 1));
      const p2 = blend(i32x4.extract_lane(base, 2), i32x4.extract_lane(second, 2), i32x4.extract_lane(third, 2), diagonal,
        v128.shuffle<i32>(w01, w01, 2, 2, 2, 2), v128.shuffle<i32>(w23, w23, 2, 2, 2, 2));
      const p3 = blend(i32x4.extract_lane(base, 3), i32x4.extract_lane(second, 3), i32x4.extract_lane(third, 3), diagonal,
        v128.shuffle<i32>(w01, w01, 3, 3, 3, 3), v128.shuffle<i32>(w23, w23, 3, 3, 3, 3));
      done = pack8(i32x4.shr_u(p0, 21), i32x4.shr_u(p1, 21), i32x4.shr_u(p2, 21), i32x4.shr_u(p3, 21), order);
    }
    v128.store(output, done);
    input += 12;
    output += step;
  }
}

/** The four corners of the tetrahedron, weighted: R, G, B in 1/128 code times 16384. */
// @ts-ignore: decorator
@inline
function blend(first: usize, second: usize, third: usize, diagonal: usize, w01: v128, w23: v128): v128 {
  const c01 = v128.shuffle<i16>(v128.load64_zero(first), v128.load64_zero(second), 0, 8, 1, 9, 2, 10, 3, 11);
  const c23 = v128.shuffle<i16>(v128.load64_zero(third), v128.load64_zero(first + diagonal), 0, 8, 1, 9, 2, 10, 3, 11);
  return i32x4.add(i32x4.dot_i16x8_s(c01, w01), i32x4.dot_i16x8_s(c23, w23));
}
