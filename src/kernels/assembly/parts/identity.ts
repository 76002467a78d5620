// Pixels as they are, in the order asked for. `order` is the same as for the loops that compute, which hold a pixel
// in four samples; here it holds three, so the samples are spread first.

export function identity8(input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  for (; groups > 0; --groups) {
    const pixels = v128.load32_lane(input, v128.load64_zero(input), 2, 8);
    const spread = v128.shuffle<i8>(pixels, pixels, 0, 1, 2, 15, 3, 4, 5, 15, 6, 7, 8, 15, 9, 10, 11, 15);
    v128.store(output, i8x16.swizzle(spread, order));
    input += 12;
    output += step;
  }
}

export function identity16(input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  for (; groups > 0; --groups) {
    const p01 = v128.load32_lane(input, v128.load64_zero(input), 2, 8);
    const p23 = v128.load32_lane(input, v128.load64_zero(input, 12), 2, 20);
    v128.store(output, i8x16.swizzle(v128.shuffle<i16>(p01, p01, 0, 1, 2, 7, 3, 4, 5, 7), order));
    output += step;
    v128.store(output, i8x16.swizzle(v128.shuffle<i16>(p23, p23, 0, 1, 2, 7, 3, 4, 5, 7), order));
    output += step;
    input += 24;
  }
}
