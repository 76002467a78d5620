import { clipUnit } from './clip.js';
import type { IccGrid } from './types.js';

/**
 * Interpolation in a colour grid. Reads its inputs from `io` and writes its outputs there; inputs are clipped to 0..1.
 * `tetrahedral` for three channels is what the ICC recommends and Little CMS does; `trilinear` is what Little CMS takes
 * where Lab indexes the grid. Four and more channels are linear in the first and go on in the rest.
 */
export function gridFunction(
  grid: IccGrid,
  threeWay: 'tetrahedral' | 'trilinear',
): (io: Float64Array) => void {
  const { inputChannels, outputChannels, points, values } = grid;
  const strides = new Array<number>(inputChannels).fill(outputChannels);
  for (let i = inputChannels - 2; i >= 0; i -= 1) strides[i] = strides[i + 1]! * points[i + 1]!;
  const bases = new Int32Array(inputChannels);
  const parts = new Float64Array(inputChannels);
  // One result row for each level of the recursion over leading channels.
  const rows = Array.from({ length: inputChannels + 1 }, () => new Float64Array(outputChannels));

  return (io) => {
    for (let i = 0; i < inputChannels; i += 1) {
      const v = io[i]!;
      const last = points[i]! - 1;
      const at = clipUnit(v) * last;
      const cell = Math.min(Math.floor(at), last - 1);
      bases[i] = cell;
      parts[i] = at - cell;
    }
    const row = rows[0]!;
    descend(0, 0, row);
    for (let o = 0; o < outputChannels; o += 1) io[o] = row[o]!;
  };

  function descend(channel: number, offset: number, row: Float64Array): void {
    const remaining = inputChannels - channel;
    if (remaining === 3) {
      const start =
        offset +
        bases[channel]! * strides[channel]! +
        bases[channel + 1]! * strides[channel + 1]! +
        bases[channel + 2]! * strides[channel + 2]!;
      if (threeWay === 'tetrahedral') tetrahedral(channel, start, row);
      else trilinear(channel, start, row);
      return;
    }
    const low = offset + bases[channel]! * strides[channel]!;
    const high = low + strides[channel]!;
    const t = parts[channel]!;
    if (remaining === 1) {
      for (let o = 0; o < outputChannels; o += 1) row[o] = values[low + o]! * (1 - t) + values[high + o]! * t;
      return;
    }
    descend(channel + 1, low, row);
    if (t === 0) return;
    const other = rows[channel + 1]!;
    descend(channel + 1, high, other);
    for (let o = 0; o < outputChannels; o += 1) row[o] = row[o]! * (1 - t) + other[o]! * t;
  }

  /** Walk from the low corner to the high one along the axes in order of falling fraction (Sakamoto's division). */
  function tetrahedral(channel: number, start: number, row: Float64Array): void {
    const x = parts[channel]!;
    const y = parts[channel + 1]!;
    const z = parts[channel + 2]!;
    const sx = strides[channel]!;
    const sy = strides[channel + 1]!;
    const sz = strides[channel + 2]!;
    let first: number;
    let second: number;
    let a: number;
    let b: number;
    let c: number;
    if (x >= y) {
      if (y >= z) [first, second, a, b, c] = [sx, sx + sy, x, y, z];
      else if (x >= z) [first, second, a, b, c] = [sx, sx + sz, x, z, y];
      else [first, second, a, b, c] = [sz, sz + sx, z, x, y];
    } else if (x >= z) [first, second, a, b, c] = [sy, sy + sx, y, x, z];
    else if (y >= z) [first, second, a, b, c] = [sy, sy + sz, y, z, x];
    else [first, second, a, b, c] = [sz, sz + sy, z, y, x];
    const end = start + sx + sy + sz;
    for (let o = 0; o < outputChannels; o += 1) {
      row[o] =
        values[start + o]! * (1 - a) +
        values[start + first + o]! * (a - b) +
        values[start + second + o]! * (b - c) +
        values[end + o]! * c;
    }
  }

  function trilinear(channel: number, start: number, row: Float64Array): void {
    const x = parts[channel]!;
    const y = parts[channel + 1]!;
    const z = parts[channel + 2]!;
    const sx = strides[channel]!;
    const sy = strides[channel + 1]!;
    const sz = strides[channel + 2]!;
    for (let o = 0; o < outputChannels; o += 1) {
      const at = start + o;
      const low =
        (values[at]! * (1 - z) + values[at + sz]! * z) * (1 - y) +
        (values[at + sy]! * (1 - z) + values[at + sy + sz]! * z) * y;
      const high =
        (values[at + sx]! * (1 - z) + values[at + sx + sz]! * z) * (1 - y) +
        (values[at + sx + sy]! * (1 - z) + values[at + sx + sy + sz]! * z) * y;
      row[o] = low * (1 - x) + high * x;
    }
  }
}
