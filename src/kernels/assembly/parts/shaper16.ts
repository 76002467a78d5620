// Curve, 3 × 3, curve, 16 bits, in single precision.
//
// Params: three input curves every 16 bytes (see curve.ts; they give 0..1), three output curves every 16 bytes from
// 48 (by square root of the linear value; they give 0..65535), then at 96 the nine f32 of the matrix, row by row.

import { readCurve, roundSample } from './curve';
import { pack16 } from './pack';

export function shaper16(params: usize, input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  const low16 = i32x4.splat(0xffff);
  let seenA = i8x16.splat(0);
  let seenB = i8x16.splat(0);
  let done01 = i8x16.splat(0);
  let done23 = i8x16.splat(0);
  let any = false;
  for (; groups > 0; --groups) {
    const a = v128.load(input);
    const b = v128.load64_zero(input, 16);
    if (!any || v128.any_true(v128.or(v128.xor(a, seenA), v128.xor(b, seenB)))) {
      any = true;
      seenA = a;
      seenB = b;
      const red = v128.and(v128.shuffle<i16>(a, b, 0, 0, 3, 3, 6, 6, 9, 9), low16);
      const green = v128.and(v128.shuffle<i16>(a, b, 1, 1, 4, 4, 7, 7, 10, 10), low16);
      const blue = v128.and(v128.shuffle<i16>(a, b, 2, 2, 5, 5, 8, 8, 11, 11), low16);
      const r = readCurve(params, f32x4.convert_i32x4_s(red));
      const g = readCurve(params + 16, f32x4.convert_i32x4_s(green));
      const bl = readCurve(params + 32, f32x4.convert_i32x4_s(blue));
      const outRed = roundSample(readCurve(params + 48, root(params + 96, r, g, bl)));
      const outGreen = roundSample(readCurve(params + 64, root(params + 108, r, g, bl)));
      const outBlue = roundSample(readCurve(params + 80, root(params + 120, r, g, bl)));
      const rg01 = v128.shuffle<i32>(outRed, outGreen, 0, 4, 1, 5);
      const rg23 = v128.shuffle<i32>(outRed, outGreen, 2, 6, 3, 7);
      done01 = pack16(v128.shuffle<i32>(rg01, outBlue, 0, 1, 4, 4), v128.shuffle<i32>(rg01, outBlue, 2, 3, 5, 5), order);
      done23 = pack16(v128.shuffle<i32>(rg23, outBlue, 0, 1, 6, 6), v128.shuffle<i32>(rg23, outBlue, 2, 3, 7, 7), order);
    }
    v128.store(output, done01);
    output += step;
    v128.store(output, done23);
    output += step;
    input += 24;
  }
}

/** Square root of one row of the matrix times linear colour, clipped to 0..1. */
// @ts-ignore: decorator
@inline
function root(row: usize, r: v128, g: v128, b: v128): v128 {
  const linear = f32x4.add(
    f32x4.add(f32x4.mul(r, v128.load32_splat(row)), f32x4.mul(g, v128.load32_splat(row, 4))),
    f32x4.mul(b, v128.load32_splat(row, 8)));
  return f32x4.sqrt(f32x4.pmin(f32x4.splat(1), f32x4.pmax(f32x4.splat(0), linear)));
}
