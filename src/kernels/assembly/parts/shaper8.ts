// Curve, 3 × 3, curve, 8 bits.
//
// Params (u32): 0, 4, 8 for red, green, blue: 256 vectors of four f32, what that value adds to each linear output,
// scaled so that 1 is 8191²; 12, 16, 20: 8192 bytes, the output code by square root of the linear value.

import { MAGIC } from './curve';

// @ts-ignore: decorator
@inline const TOP: f32 = 8191.0;

export function shaper8(params: usize, input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  const red = load<u32>(params, 0);
  const green = load<u32>(params, 4);
  const blue = load<u32>(params, 8);
  const outRed = load<u32>(params, 12);
  const outGreen = load<u32>(params, 16);
  const outBlue = load<u32>(params, 20);
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
      const a = <u32>low;
      const b = <u32>(low >> 32);
      const s0 = roots(red + ((a & 255) << 4), green + (((a >> 8) & 255) << 4), blue + (((a >> 16) & 255) << 4));
      const s1 = roots(red + ((a >> 24) << 4), green + ((b & 255) << 4), blue + (((b >> 8) & 255) << 4));
      const s2 = roots(red + (((b >> 16) & 255) << 4), green + ((b >> 24) << 4), blue + ((high & 255) << 4));
      const s3 = roots(red + (((high >> 8) & 255) << 4), green + (((high >> 16) & 255) << 4), blue + ((high >> 24) << 4));
      let packed = i32x4.splat(code(s0, outRed, outGreen, outBlue));
      packed = i32x4.replace_lane(packed, 1, code(s1, outRed, outGreen, outBlue));
      packed = i32x4.replace_lane(packed, 2, code(s2, outRed, outGreen, outBlue));
      packed = i32x4.replace_lane(packed, 3, code(s3, outRed, outGreen, outBlue));
      done = i8x16.swizzle(packed, order);
    }
    v128.store(output, done);
    input += 12;
    output += step;
  }
}

/** Where the three outputs stand in their tables, 0..8191. */
// @ts-ignore: decorator
@inline
function roots(red: usize, green: usize, blue: usize): v128 {
  const linear = f32x4.add(f32x4.add(v128.load(red), v128.load(green)), v128.load(blue));
  const clipped = f32x4.pmin(f32x4.splat(TOP * TOP), f32x4.pmax(f32x4.splat(0), linear));
  return v128.and(f32x4.add(f32x4.sqrt(clipped), f32x4.splat(MAGIC)), i32x4.splat(0x3fff));
}

// @ts-ignore: decorator
@inline
function code(at: v128, outRed: usize, outGreen: usize, outBlue: usize): u32 {
  return <u32>load<u8>(outRed + i32x4.extract_lane(at, 0)) |
    (<u32>load<u8>(outGreen + i32x4.extract_lane(at, 1)) << 8) |
    (<u32>load<u8>(outBlue + i32x4.extract_lane(at, 2)) << 16);
}
