import type { DeviceLink, GridLink, ShaperLink } from './link-shape.js';
import type { RunOptions, SampleBits } from './types.js';

/**
 * The plain twin of the WebAssembly kernels: what a link means, in double precision and without tricks.
 * The kernels are tested against it, and it against Little CMS and against properties that must hold.
 *
 * @param input pixels × link.inputChannels samples, interleaved, 0..255 or 0..65535 by `bits`
 * @param output pixels × 3 samples, RGB, same range
 */
export function applyLinkPlain(
  link: DeviceLink,
  input: Uint8Array | Uint16Array,
  output: Uint8Array | Uint16Array,
  pixels: number,
  bits: SampleBits,
  options: RunOptions = {},
): void {
  const channels = link.inputChannels;
  if (input.length < pixels * channels || output.length < pixels * 3) {
    throw new RangeError(`${pixels} pixels do not fit the buffers given`);
  }
  const top = bits === 8 ? 255 : 65535;
  const encoded = new Float64Array(channels);
  const rgb = new Float64Array(3);
  for (let pixel = 0; pixel < pixels; pixel += 1) {
    for (let c = 0; c < channels; c += 1) encoded[c] = input[pixel * channels + c]! / top;
    evaluateLink(link, encoded, rgb);
    const to = (options.flip ? pixels - 1 - pixel : pixel) * 3;
    for (let c = 0; c < 3; c += 1) output[to + c] = Math.floor(rgb[c]! * top + 0.5);
  }
}

/** One colour through a link, not rounded. `encoded`: inputChannels values 0..1; `rgb` receives 3 values 0..1. */
export function evaluateLink(link: DeviceLink, encoded: Float64Array, rgb: Float64Array): void {
  if (link.kind === 'identity') rgb.set(encoded);
  else if (link.kind === 'shaper') evaluateShaper(link, encoded, rgb);
  else evaluateGrid(link, encoded, rgb);
}

/** A curve sampled evenly over 0..1, read between its samples along the straight line. `x` is clipped to 0..1. */
export function readCurve(samples: Float32Array, x: number): number {
  const last = samples.length - 1;
  const position = clip01(x) * last;
  const cell = Math.min(Math.floor(position), Math.max(last - 1, 0));
  const low = samples[cell]!;
  const high = samples[Math.min(cell + 1, last)]!;
  return low + (high - low) * (position - cell);
}

function evaluateShaper(link: ShaperLink, encoded: Float64Array, rgb: Float64Array): void {
  const { inputCurves, matrix, outputCurves } = link;
  const r = readCurve(inputCurves[0], encoded[0]!);
  const g = readCurve(inputCurves[1], encoded[1]!);
  const b = readCurve(inputCurves[2], encoded[2]!);
  for (let row = 0; row < 3; row += 1) {
    const linear = matrix[row * 3]! * r + matrix[row * 3 + 1]! * g + matrix[row * 3 + 2]! * b;
    // Colours outside the destination clip here, channel by channel, as matrix profiles do.
    rgb[row] = clip01(readCurve(outputCurves[row]!, Math.sqrt(clip01(linear))));
  }
}

/** Where a channel falls on the grid: the cell's lower node (in nodes), and how far across the cell, 0..1. */
interface Place {
  readonly node: number;
  readonly across: number;
}

function placeOnGrid(link: GridLink, channel: number, encoded: number): Place {
  const curve = link.inputCurves?.[channel];
  const position = clip01(curve ? readCurve(curve, encoded) : encoded) * (link.gridPoints - 1);
  const node = Math.min(Math.floor(position), Math.max(link.gridPoints - 2, 0));
  return { node, across: position - node };
}

function evaluateGrid(link: GridLink, encoded: Float64Array, rgb: Float64Array): void {
  const n = link.gridPoints;
  const places = Array.from({ length: link.inputChannels }, (_, c) => placeOnGrid(link, c, encoded[c]!));
  if (link.inputChannels === 1) {
    walk(link.table, places[0]!.node, [{ across: places[0]!.across, stride: 1 }], rgb);
    return;
  }
  const last3 = places.slice(-3) as [Place, Place, Place];
  const base = (last3[0].node * n + last3[1].node) * n + last3[2].node;
  const edges = last3.map(({ across }, i) => ({ across, stride: [n * n, n, 1][i]! }));
  if (link.inputChannels === 3) {
    walk(link.table, base, edges, rgb);
    return;
  }
  const { node, across } = places[0]!;
  const below = new Float64Array(3);
  const above = new Float64Array(3);
  const slab = n * n * n;
  walk(link.table, node * slab + base, edges, below);
  walk(link.table, Math.min(node + 1, n - 1) * slab + base, edges, above);
  for (let c = 0; c < 3; c += 1) rgb[c] = below[c]! + (above[c]! - below[c]!) * across;
}

/**
 * Simplex interpolation as a walk from the cell's lower node to its upper one, along the axis with the largest
 * fraction first (tetrahedral interpolation in three axes: Kasson, Nin, Plouffe & Hafner 1995, "Performing
 * color space conversions with three-dimensional linear interpolation", J. Electronic Imaging 4(3)). Each step
 * adds its fraction of the difference between the two nodes it joins.
 */
function walk(
  table: Uint16Array,
  base: number,
  edges: { across: number; stride: number }[],
  rgb: Float64Array,
): void {
  for (let c = 0; c < 3; c += 1) rgb[c] = table[base * 3 + c]! / 65535;
  let node = base;
  for (const { across, stride } of [...edges].sort((a, b) => b.across - a.across)) {
    if (across === 0) break;
    const next = node + stride;
    for (let c = 0; c < 3; c += 1) {
      rgb[c] = rgb[c]! + ((table[next * 3 + c]! - table[node * 3 + c]!) / 65535) * across;
    }
    node = next;
  }
}

function clip01(x: number): number {
  return x > 0 ? Math.min(x, 1) : 0;
}
