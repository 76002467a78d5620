// Four channels through a grid, 8 bits: tetrahedral in the last three, linear in the first, in fixed point.
//
// Params (u32 each): 0 entries of the first channel, 4, 8, 12 of the other three, 16 diagonal, 20 bytes of a slab.
// Entries of the last three and nodes are as in rgb8. An entry of the first channel holds two i16 weights for the slab
// below and above (sum 16384), then the byte offset of the slab below (with the grid's address in it).

import { pack8 } from './pack';

// @ts-ignore: decorator
@inline const KEY_STRIDE: i32 = 0x1ffff;

export function cmyk8(params: usize, input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  const outer = load<u32>(params, 0);
  const red = load<u32>(params, 4);
  const green = load<u32>(params, 8);
  const blue = load<u32>(params, 12);
  const diagonal = load<u32>(params, 16);
  const slab = load<u32>(params, 20);
  const diagonals = i32x4.splat(diagonal);
  const whole = i32x4.splat(16384);
  const strideBits = i32x4.splat(KEY_STRIDE);
  let seenLow: u64 = 0;
  let seenHigh: u64 = 0;
  let done = i8x16.splat(0);
  let any = false;

  for (; groups > 0; --groups) {
    const low = load<u64>(input);
    const high = load<u64>(input, 8);
    if (!any || low != seenLow || high != seenHigh) {
      any = true;
      seenLow = low;
      seenHigh = high;
      const x0 = <u32>low;
      const x1 = <u32>(low >> 32);
      const x2 = <u32>high;
      const x3 = <u32>(high >> 32);
      const k01 = pair(outer, x0 & 255, x1 & 255);
      const k23 = pair(outer, x2 & 255, x3 & 255);
      const r01 = pair(red, (x0 >> 8) & 255, (x1 >> 8) & 255);
      const r23 = pair(red, (x2 >> 8) & 255, (x3 >> 8) & 255);
      const g01 = pair(green, (x0 >> 16) & 255, (x1 >> 16) & 255);
      const g23 = pair(green, (x2 >> 16) & 255, (x3 >> 16) & 255);
      const b01 = pair(blue, x0 >> 24, x1 >> 24);
      const b23 = pair(blue, x2 >> 24, x3 >> 24);

      const o01 = i32x4.add(i32x4.add(r01, g01), i32x4.add(b01, k01));
      const o23 = i32x4.add(i32x4.add(r23, g23), i32x4.add(b23, k23));
      const base = v128.shuffle<i32>(o01, o23, 1, 3, 5, 7);
      const slabs = v128.shuffle<i32>(k01, k23, 0, 2, 4, 6);
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

      const p0 = blend(i32x4.extract_lane(base, 0), i32x4.extract_lane(second, 0), i32x4.extract_lane(third, 0), diagonal, slab,
        v128.shuffle<i32>(w01, w01, 0, 0, 0, 0), v128.shuffle<i32>(w23, w23, 0, 0, 0, 0), v128.shuffle<i32>(slabs, slabs, 0, 0, 0, 0));
      const p1 = blend(i32x4.extract_lane(base, 1), i32x4.extract_lane(second, 1), i32x4.extract_lane(third, 1), diagonal, slab,
        v128.shuffle<i32>(w01, w01, 1, 1, 1, 1), v128.shuffle<i32>(w23, w23, 1, 1, 1, 1), v128.shuffle<i32>(slabs, slabs, 1, 1, 1, 1));
      const p2 = blend(i32x4.extract_lane(base, 2), i32x4.extract_lane(second, 2), i32x4.extract_lane(third, 2), diagonal, slab,
        v128.shuffle<i32>(w01, w01, 2, 2, 2, 2), v128.shuffle<i32>(w23, w23, 2, 2, 2, 2), v128.shuffle<i32>(slabs, slabs, 2, 2, 2, 2));
      const p3 = blend(i32x4.extract_lane(base, 3), i32x4.extract_lane(second, 3), i32x4.extract_lane(third, 3), diagonal, slab,
        v128.shuffle<i32>(w01, w01, 3, 3, 3, 3), v128.shuffle<i32>(w23, w23, 3, 3, 3, 3), v128.shuffle<i32>(slabs, slabs, 3, 3, 3, 3));
      done = pack8(i32x4.shr_u(p0, 21), i32x4.shr_u(p1, 21), i32x4.shr_u(p2, 21), i32x4.shr_u(p3, 21), order);
    }
    v128.store(output, done);
    input += 16;
    output += step;
  }
}

/** The entries of two values: [key, offset, key, offset]. */
// @ts-ignore: decorator
@inline
function pair(entries: usize, first: u32, second: u32): v128 {
  return v128.load64_lane(entries + (second << 3), v128.load64_zero(entries + (first << 3)), 1);
}

/** Both slabs' tetrahedra, each brought back to 1/128 code (rounded), then mixed. */
// @ts-ignore: decorator
@inline
function blend(first: usize, second: usize, third: usize, diagonal: usize, slab: usize, w01: v128, w23: v128, mix: v128): v128 {
  const below = corners(first, second, third, first + diagonal, w01, w23);
  const above = corners(first + slab, second + slab, third + slab, first + diagonal + slab, w01, w23);
  const half = i32x4.splat(8192);
  const low = i32x4.shr_u(i32x4.add(below, half), 14);
  const high = i32x4.shl(i32x4.shr_u(i32x4.add(above, half), 14), 16);
  return i32x4.dot_i16x8_s(v128.or(low, high), mix);
}

// @ts-ignore: decorator
@inline
function corners(first: usize, second: usize, third: usize, fourth: usize, w01: v128, w23: v128): v128 {
  const c01 = v128.shuffle<i16>(v128.load64_zero(first), v128.load64_zero(second), 0, 8, 1, 9, 2, 10, 3, 11);
  const c23 = v128.shuffle<i16>(v128.load64_zero(third), v128.load64_zero(fourth), 0, 8, 1, 9, 2, 10, 3, 11);
  return i32x4.add(i32x4.dot_i16x8_s(c01, w01), i32x4.dot_i16x8_s(c23, w23));
}
