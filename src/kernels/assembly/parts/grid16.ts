// Three or four channels through a grid, 16 bits, in single precision: tetrahedral in the last three channels,
// linear in the first of four. Four pixels at a time.
//
// Params: a curve (see curve.ts, giving grid positions) every 16 bytes for the four channels, the first unused when
// there are three; then 64 address of the grid, 68 f32 last cell, 72, 76, 80, 84 f32 strides in nodes, 88 bytes of a
// slab; 96, 100, 104 bytes of a step along the last three, 108 diagonal. A node is four u16: R, G, B, 0.

import { cellBelow, readCurve, roundSample, toInt } from './curve';
import { pack16 } from './pack';

export function rgb16(params: usize, input: usize, groups: i32, output: usize, step: isize, order: v128): void {
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
      const last = v128.load32_splat(params, 68);
      const r = readCurve(params + 16, f32x4.convert_i32x4_s(red));
      const g = readCurve(params + 32, f32x4.convert_i32x4_s(green));
      const bl = readCurve(params + 48, f32x4.convert_i32x4_s(blue));
      const rCell = cellBelow(r, last);
      const gCell = cellBelow(g, last);
      const bCell = cellBelow(bl, last);
      const node = f32x4.add(
        f32x4.add(f32x4.mul(rCell, v128.load32_splat(params, 76)), f32x4.mul(gCell, v128.load32_splat(params, 80))), bCell);
      const base = i32x4.add(i32x4.shl(toInt(node), 3), v128.load32_splat(params, 64));
      const fr = f32x4.sub(r, rCell);
      const fg = f32x4.sub(g, gCell);
      const fb = f32x4.sub(bl, bCell);

      const second = i32x4.add(base, firstStep(params, fr, fg, fb));
      const third = i32x4.sub(i32x4.add(base, v128.load32_splat(params, 108)), lastStep(params, fr, fg, fb));
      const f1 = f32x4.pmax(f32x4.pmax(fr, fg), fb);
      const f3 = f32x4.pmin(f32x4.pmin(fr, fg), fb);
      const f2 = f32x4.pmax(f32x4.pmin(fr, fg), f32x4.pmin(f32x4.pmax(fr, fg), fb));
      const w0 = f32x4.sub(f32x4.splat(1), f1);
      const w1 = f32x4.sub(f1, f2);
      const w2 = f32x4.sub(f2, f3);
      const diagonal = load<u32>(params, 108);

      const p0 = roundSample(corners(i32x4.extract_lane(base, 0), i32x4.extract_lane(second, 0), i32x4.extract_lane(third, 0), diagonal,
        v128.shuffle<i32>(w0, w0, 0, 0, 0, 0), v128.shuffle<i32>(w1, w1, 0, 0, 0, 0), v128.shuffle<i32>(w2, w2, 0, 0, 0, 0), v128.shuffle<i32>(f3, f3, 0, 0, 0, 0)));
      const p1 = roundSample(corners(i32x4.extract_lane(base, 1), i32x4.extract_lane(second, 1), i32x4.extract_lane(third, 1), diagonal,
        v128.shuffle<i32>(w0, w0, 1, 1, 1, 1), v128.shuffle<i32>(w1, w1, 1, 1, 1, 1), v128.shuffle<i32>(w2, w2, 1, 1, 1, 1), v128.shuffle<i32>(f3, f3, 1, 1, 1, 1)));
      const p2 = roundSample(corners(i32x4.extract_lane(base, 2), i32x4.extract_lane(second, 2), i32x4.extract_lane(third, 2), diagonal,
        v128.shuffle<i32>(w0, w0, 2, 2, 2, 2), v128.shuffle<i32>(w1, w1, 2, 2, 2, 2), v128.shuffle<i32>(w2, w2, 2, 2, 2, 2), v128.shuffle<i32>(f3, f3, 2, 2, 2, 2)));
      const p3 = roundSample(corners(i32x4.extract_lane(base, 3), i32x4.extract_lane(second, 3), i32x4.extract_lane(third, 3), diagonal,
        v128.shuffle<i32>(w0, w0, 3, 3, 3, 3), v128.shuffle<i32>(w1, w1, 3, 3, 3, 3), v128.shuffle<i32>(w2, w2, 3, 3, 3, 3), v128.shuffle<i32>(f3, f3, 3, 3, 3, 3)));
      done01 = pack16(p0, p1, order);
      done23 = pack16(p2, p3, order);
    }
    v128.store(output, done01);
    output += step;
    v128.store(output, done23);
    output += step;
    input += 24;
  }
}

export function cmyk16(params: usize, input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  const low16 = i32x4.splat(0xffff);
  let seenA = i8x16.splat(0);
  let seenB = i8x16.splat(0);
  let done01 = i8x16.splat(0);
  let done23 = i8x16.splat(0);
  let any = false;
  for (; groups > 0; --groups) {
    const a = v128.load(input);
    const b = v128.load(input, 16);
    if (!any || v128.any_true(v128.or(v128.xor(a, seenA), v128.xor(b, seenB)))) {
      any = true;
      seenA = a;
      seenB = b;
      const outer = v128.and(v128.shuffle<i16>(a, b, 0, 0, 4, 4, 8, 8, 12, 12), low16);
      const red = v128.and(v128.shuffle<i16>(a, b, 1, 1, 5, 5, 9, 9, 13, 13), low16);
      const green = v128.and(v128.shuffle<i16>(a, b, 2, 2, 6, 6, 10, 10, 14, 14), low16);
      const blue = v128.and(v128.shuffle<i16>(a, b, 3, 3, 7, 7, 11, 11, 15, 15), low16);
      const last = v128.load32_splat(params, 68);
      const k = readCurve(params, f32x4.convert_i32x4_s(outer));
      const r = readCurve(params + 16, f32x4.convert_i32x4_s(red));
      const g = readCurve(params + 32, f32x4.convert_i32x4_s(green));
      const bl = readCurve(params + 48, f32x4.convert_i32x4_s(blue));
      const kCell = cellBelow(k, last);
      const rCell = cellBelow(r, last);
      const gCell = cellBelow(g, last);
      const bCell = cellBelow(bl, last);
      const node = f32x4.add(
        f32x4.add(f32x4.mul(rCell, v128.load32_splat(params, 76)), f32x4.mul(gCell, v128.load32_splat(params, 80))),
        f32x4.add(bCell, f32x4.mul(kCell, v128.load32_splat(params, 72))));
      const base = i32x4.add(i32x4.shl(toInt(node), 3), v128.load32_splat(params, 64));
      const fk = f32x4.sub(k, kCell);
      const fr = f32x4.sub(r, rCell);
      const fg = f32x4.sub(g, gCell);
      const fb = f32x4.sub(bl, bCell);

      const second = i32x4.add(base, firstStep(params, fr, fg, fb));
      const third = i32x4.sub(i32x4.add(base, v128.load32_splat(params, 108)), lastStep(params, fr, fg, fb));
      const f1 = f32x4.pmax(f32x4.pmax(fr, fg), fb);
      const f3 = f32x4.pmin(f32x4.pmin(fr, fg), fb);
      const f2 = f32x4.pmax(f32x4.pmin(fr, fg), f32x4.pmin(f32x4.pmax(fr, fg), fb));
      const w0 = f32x4.sub(f32x4.splat(1), f1);
      const w1 = f32x4.sub(f1, f2);
      const w2 = f32x4.sub(f2, f3);
      const diagonal = load<u32>(params, 108);
      const slab = load<u32>(params, 88);

      const p0 = slabs(i32x4.extract_lane(base, 0), i32x4.extract_lane(second, 0), i32x4.extract_lane(third, 0), diagonal, slab,
        v128.shuffle<i32>(w0, w0, 0, 0, 0, 0), v128.shuffle<i32>(w1, w1, 0, 0, 0, 0), v128.shuffle<i32>(w2, w2, 0, 0, 0, 0), v128.shuffle<i32>(f3, f3, 0, 0, 0, 0), v128.shuffle<i32>(fk, fk, 0, 0, 0, 0));
      const p1 = slabs(i32x4.extract_lane(base, 1), i32x4.extract_lane(second, 1), i32x4.extract_lane(third, 1), diagonal, slab,
        v128.shuffle<i32>(w0, w0, 1, 1, 1, 1), v128.shuffle<i32>(w1, w1, 1, 1, 1, 1), v128.shuffle<i32>(w2, w2, 1, 1, 1, 1), v128.shuffle<i32>(f3, f3, 1, 1, 1, 1), v128.shuffle<i32>(fk, fk, 1, 1, 1, 1));
      const p2 = slabs(i32x4.extract_lane(base, 2), i32x4.extract_lane(second, 2), i32x4.extract_lane(third, 2), diagonal, slab,
        v128.shuffle<i32>(w0, w0, 2, 2, 2, 2), v128.shuffle<i32>(w1, w1, 2, 2, 2, 2), v128.shuffle<i32>(w2, w2, 2, 2, 2, 2), v128.shuffle<i32>(f3, f3, 2, 2, 2, 2), v128.shuffle<i32>(fk, fk, 2, 2, 2, 2));
      const p3 = slabs(i32x4.extract_lane(base, 3), i32x4.extract_lane(second, 3), i32x4.extract_lane(third, 3), diagonal, slab,
        v128.shuffle<i32>(w0, w0, 3, 3, 3, 3), v128.shuffle<i32>(w1, w1, 3, 3, 3, 3), v128.shuffle<i32>(w2, w2, 3, 3, 3, 3), v128.shuffle<i32>(f3, f3, 3, 3, 3, 3), v128.shuffle<i32>(fk, fk, 3, 3, 3, 3));
      done01 = pack16(p0, p1, order);
      done23 = pack16(p2, p3, order);
    }
    v128.store(output, done01);
    output += step;
    v128.store(output, done23);
    output += step;
    input += 32;
  }
}

/** Bytes of the step along the axis with the largest fraction; among equals the earlier channel goes first. */
// @ts-ignore: decorator
@inline
function firstStep(params: usize, fr: v128, fg: v128, fb: v128): v128 {
  const redFirst = v128.and(f32x4.ge(fr, fg), f32x4.ge(fr, fb));
  const rest = v128.bitselect(v128.load32_splat(params, 100), v128.load32_splat(params, 104), f32x4.ge(fg, fb));
  return v128.bitselect(v128.load32_splat(params, 96), rest, redFirst);
}

/** Bytes of the step along the axis with the smallest fraction; among equals the later channel goes last. */
// @ts-ignore: decorator
@inline
function lastStep(params: usize, fr: v128, fg: v128, fb: v128): v128 {
  const blueLast = v128.and(f32x4.ge(fr, fb), f32x4.ge(fg, fb));
  const rest = v128.bitselect(v128.load32_splat(params, 100), v128.load32_splat(params, 96), f32x4.ge(fr, fg));
  return v128.bitselect(v128.load32_splat(params, 104), rest, blueLast);
}

// @ts-ignore: decorator
@inline
function corner(at: usize, weight: v128): v128 {
  return f32x4.mul(f32x4.convert_i32x4_s(v128.load_ext<u16>(at)), weight);
}

// @ts-ignore: decorator
@inline
function corners(first: usize, second: usize, third: usize, diagonal: usize, w0: v128, w1: v128, w2: v128, w3: v128): v128 {
  return f32x4.add(
    f32x4.add(corner(first, w0), corner(second, w1)),
    f32x4.add(corner(third, w2), corner(first + diagonal, w3)));
}

// @ts-ignore: decorator
@inline
function slabs(first: usize, second: usize, third: usize, diagonal: usize, slab: usize, w0: v128, w1: v128, w2: v128, w3: v128, mix: v128): v128 {
  const below = corners(first, second, third, diagonal, w0, w1, w2, w3);
  const above = corners(first + slab, second + slab, third + slab, diagonal, w0, w1, w2, w3);
  return roundSample(f32x4.add(below, f32x4.mul(f32x4.sub(above, below), mix)));
}
