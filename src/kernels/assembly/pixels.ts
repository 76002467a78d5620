// The one entry of the module. Every loop takes pixels four at a time and stores 16 bytes of which 12 count, so the
// loops stop short of the end and the last few pixels go by way of a scratch area: a run touches its own samples only.

import { cmyk8 } from './parts/cmyk8';
import { grey16, grey8 } from './parts/grey';
import { cmyk16, rgb16 } from './parts/grid16';
import { identity16, identity8 } from './parts/identity';
import { rgb8 } from './parts/rgb8';
import { shaper16 } from './parts/shaper16';
import { shaper8 } from './parts/shaper8';

/**
 * Convert `pixels` pixels. `loop` is the number that loopNumbers in ../arena.ts gives; `params` is where the loop's
 * parameters stand; `scratch` has 192 bytes of this slot's own; `flip` reverses the order of the pixels.
 */
export function convert(
  loop: i32, params: usize, input: usize, output: usize, pixels: i32,
  inputBytes: i32, outputBytes: i32, flip: bool, scratch: usize,
): void {
  // Two pixels at least are left over, to cover the 4 bytes that the last store spills.
  const groups = pixels < 6 ? 0 : (pixels - 2) >> 2;
  const rest = pixels - (groups << 2);
  quads(loop, params, input, groups, output, pixels, outputBytes, flip);
  if (rest <= 0) return;
  memory.copy(scratch, input + groups * 4 * inputBytes, rest * inputBytes);
  const done = scratch + 80;
  quads(loop, params, scratch, 2, done, 8, outputBytes, flip);
  if (flip) memory.copy(output, done + (8 - rest) * outputBytes, rest * outputBytes);
  else memory.copy(output + groups * 4 * outputBytes, done, rest * outputBytes);
}

/** `groups` × four pixels from the front of `input`, to the front of the output or, flipped, to its back. */
function quads(loop: i32, params: usize, input: usize, groups: i32, output: usize, pixels: i32, outputBytes: i32, flip: bool): void {
  const step: isize = flip ? -12 : 12;
  const to: usize = flip ? output + pixels * outputBytes - 16 : output;
  const order8 = flip
    ? i8x16(-1, -1, -1, -1, 12, 13, 14, 8, 9, 10, 4, 5, 6, 0, 1, 2)
    : i8x16(0, 1, 2, 4, 5, 6, 8, 9, 10, 12, 13, 14, -1, -1, -1, -1);
  const order16 = flip
    ? i8x16(-1, -1, -1, -1, 8, 9, 10, 11, 12, 13, 0, 1, 2, 3, 4, 5)
    : i8x16(0, 1, 2, 3, 4, 5, 8, 9, 10, 11, 12, 13, -1, -1, -1, -1);
  switch (loop) {
    case 0: identity8(input, groups, to, step, order8); break;
    case 1: identity16(input, groups, to, step, order16); break;
    case 2: shaper8(params, input, groups, to, step, order8); break;
    case 3: shaper16(params, input, groups, to, step, order16); break;
    case 4: grey8(params, input, groups, to, step, order8); break;
    case 5: grey16(params, input, groups, to, step, order16); break;
    case 6: rgb8(params, input, groups, to, step, order8); break;
    case 7: rgb16(params, input, groups, to, step, order16); break;
    case 8: cmyk8(params, input, groups, to, step, order8); break;
    case 9: cmyk16(params, input, groups, to, step, order16); break;
    default: unreachable();
  }
}
