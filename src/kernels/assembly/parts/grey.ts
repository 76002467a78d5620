// One channel: every value's colour stands ready in a table, so nothing is worked out here.

/** Params: 0 address of 256 × four bytes R, G, B, 0. */
export function grey8(params: usize, input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  const table = load<u32>(params);
  for (; groups > 0; --groups) {
    const four = load<u32>(input);
    let colours = v128.load32_zero(table + ((four & 255) << 2));
    colours = v128.load32_lane(table + (((four >> 8) & 255) << 2), colours, 1);
    colours = v128.load32_lane(table + (((four >> 16) & 255) << 2), colours, 2);
    colours = v128.load32_lane(table + ((four >> 24) << 2), colours, 3);
    v128.store(output, i8x16.swizzle(colours, order));
    input += 4;
    output += step;
  }
}

/** Params: 0 address of 65536 × four u16 R, G, B, 0. */
export function grey16(params: usize, input: usize, groups: i32, output: usize, step: isize, order: v128): void {
  const table = load<u32>(params);
  for (; groups > 0; --groups) {
    const p01 = v128.load64_lane(table + (<u32>load<u16>(input, 2) << 3), v128.load64_zero(table + (<u32>load<u16>(input) << 3)), 1);
    const p23 = v128.load64_lane(table + (<u32>load<u16>(input, 6) << 3), v128.load64_zero(table + (<u32>load<u16>(input, 4) << 3)), 1);
    v128.store(output, i8x16.swizzle(p01, order));
    output += step;
    v128.store(output, i8x16.swizzle(p23, order));
    output += step;
    input += 8;
  }
}
