// Curves read for four pixels at once, and the rounding that single precision allows cheaply.

/** 1.5 · 2^23: adding it leaves the nearest whole number in the low bits of a single-precision value. */
// @ts-ignore: decorator
@inline export const MAGIC: f32 = 12582912.0;

/** The whole number below each lane, for lanes 0..2^22; a whole number may come out one less (then the rest is 1). */
// @ts-ignore: decorator
@inline
export function cellBelow(position: v128, last: v128): v128 {
  const magic = f32x4.splat(MAGIC);
  const nearest = f32x4.sub(f32x4.add(f32x4.sub(position, f32x4.splat(0.5)), magic), magic);
  return f32x4.pmin(last, nearest);
}

/** Whole numbers in single precision (0..2^22) → i32. */
// @ts-ignore: decorator
@inline
export function toInt(whole: v128): v128 {
  return i32x4.sub(f32x4.add(whole, f32x4.splat(MAGIC)), i32x4.splat(0x4b400000));
}

/**
 * Four values through one curve, along straight lines between its samples.
 * A curve's params: 0 address of its f32 samples (at least two), 4 f32 positions per unit of `value`, 8 f32 last cell.
 */
// @ts-ignore: decorator
@inline
export function readCurve(params: usize, value: v128): v128 {
  const samples = load<u32>(params, 0);
  const position = f32x4.mul(value, v128.load32_splat(params, 4));
  const cell = cellBelow(position, v128.load32_splat(params, 8));
  const at = i32x4.add(i32x4.shl(toInt(cell), 2), i32x4.splat(samples));
  const s01 = v128.load64_lane(i32x4.extract_lane(at, 1), v128.load64_zero(i32x4.extract_lane(at, 0)), 1);
  const s23 = v128.load64_lane(i32x4.extract_lane(at, 3), v128.load64_zero(i32x4.extract_lane(at, 2)), 1);
  const low = v128.shuffle<i32>(s01, s23, 0, 2, 4, 6);
  const high = v128.shuffle<i32>(s01, s23, 1, 3, 5, 7);
  return f32x4.add(low, f32x4.mul(f32x4.sub(high, low), f32x4.sub(position, cell)));
}

/** 0..65535 in single precision → the nearest whole number, as i32. */
// @ts-ignore: decorator
@inline
export function roundSample(value: v128): v128 {
  return v128.and(f32x4.add(value, f32x4.splat(8388608.0)), i32x4.splat(0xffff));
}
