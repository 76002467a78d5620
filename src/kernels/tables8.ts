import type { Laying } from './laying.js';
import { Params } from './laying.js';
import type { GridLink, ShaperLink } from './link-shape.js';
import { applyLinkPlain, readCurve } from './plain.js';

/** Fractions and weights of the 8-bit loops, in this many parts. */
const weightOne = 16384;
/** Colours of the 8-bit loops, in this many parts of one 8-bit code. */
const codeParts = 128;
const nodeBytes = 8;

/** Parameters of `assembly/parts/rgb8.ts`: RGB through a grid. */
export function layRgb8(link: GridLink, laying: Laying): Params {
  const params = new Params();
  const n = link.gridPoints;
  const strides = [n * n * nodeBytes, n * nodeBytes, nodeBytes];
  const gridAt = laying.place(paddedNodes(link));
  for (const [c, stride] of strides.entries()) {
    params.u32(c * 4, laying.place(axisEntries(link, c, stride, c === 0 ? gridAt : 0)));
  }
  params.u32(12, sum(strides));
  return params;
}

/** Parameters of `assembly/parts/cmyk8.ts`: four channels through a grid. */
export function layCmyk8(link: GridLink, laying: Laying): Params {
  const params = new Params();
  const n = link.gridPoints;
  const slab = n ** 3 * nodeBytes;
  const strides = [n * n * nodeBytes, n * nodeBytes, nodeBytes];
  const gridAt = laying.place(paddedNodes(link));
  params.u32(0, laying.place(slabEntries(link, slab, gridAt)));
  for (const [i, stride] of strides.entries()) {
    params.u32(4 + i * 4, laying.place(axisEntries(link, i + 1, stride, 0)));
  }
  params.u32(16, sum(strides));
  params.u32(20, slab);
  return params;
}

/** Parameters of `assembly/parts/grey.ts`: one channel, every value worked out beforehand by the plain twin. */
export function layGrey8(link: GridLink, laying: Laying): Params {
  const every = Uint8Array.from({ length: 256 }, (_, value) => value);
  const rgb = new Uint8Array(256 * 3);
  applyLinkPlain(link, every, rgb, 256, 8);
  const table = new Uint8Array(256 * 4);
  for (let v = 0; v < 256; v += 1) table.set(rgb.subarray(v * 3, v * 3 + 3), v * 4);
  const params = new Params();
  params.u32(0, laying.place(table));
  return params;
}

/** Parameters of `assembly/parts/shaper8.ts`. */
export function layShaper8(link: ShaperLink, laying: Laying): Params {
  const params = new Params();
  const outputSteps = 8191;
  for (let c = 0; c < 3; c += 1) {
    const columns = new Float32Array(256 * 4);
    for (let v = 0; v < 256; v += 1) {
      const linear = readCurve(link.inputCurves[c]!, v / 255);
      for (let row = 0; row < 3; row += 1) {
        columns[v * 4 + row] = linear * link.matrix[row * 3 + c]! * outputSteps ** 2;
      }
    }
    params.u32(c * 4, laying.place(columns));
  }
  for (let c = 0; c < 3; c += 1) {
    const codes = new Uint8Array(outputSteps + 1);
    for (let s = 0; s <= outputSteps; s += 1) {
      const encoded = readCurve(link.outputCurves[c]!, s / outputSteps);
      codes[s] = Math.floor(Math.min(Math.max(encoded, 0), 1) * 255 + 0.5);
    }
    params.u32(12 + c * 4, laying.place(codes));
  }
  return params;
}

/** Four i16 a node: R, G, B in 1/128 code and 0, each with the half code that rounds added. */
function paddedNodes(link: GridLink): Int16Array {
  const nodes = link.table.length / 3;
  const padded = new Int16Array(nodes * 4);
  const scale = (255 * codeParts) / 65535;
  for (let node = 0; node < nodes; node += 1) {
    for (let c = 0; c < 3; c += 1) {
      padded[node * 4 + c] = Math.round(link.table[node * 3 + c]! * scale) + codeParts / 2;
    }
  }
  return padded;
}

/** For each 8-bit value of a tetrahedral axis: key (fraction and stride) and the lower node's byte offset. */
function axisEntries(link: GridLink, channel: number, stride: number, offset: number): Uint32Array {
  const entries = new Uint32Array(512);
  for (let value = 0; value < 256; value += 1) {
    const { node, weight } = placeValue(link, channel, value);
    entries[value * 2] = weight * 2 ** 17 + stride;
    entries[value * 2 + 1] = node * stride + offset;
  }
  return entries;
}

/** For each 8-bit value of the linear axis: the weights of the slabs below and above, and the lower one's offset. */
function slabEntries(link: GridLink, slab: number, offset: number): Uint32Array {
  const entries = new Uint32Array(512);
  for (let value = 0; value < 256; value += 1) {
    const { node, weight } = placeValue(link, 0, value);
    entries[value * 2] = weightOne - weight + weight * 65536;
    entries[value * 2 + 1] = node * slab + offset;
  }
  return entries;
}

function placeValue(link: GridLink, channel: number, value: number): { node: number; weight: number } {
  const curve = link.inputCurves?.[channel];
  const across = curve ? Math.min(Math.max(readCurve(curve, value / 255), 0), 1) : value / 255;
  const position = across * (link.gridPoints - 1);
  const node = Math.min(Math.floor(position), link.gridPoints - 2);
  return { node, weight: Math.round((position - node) * weightOne) };
}

function sum(values: readonly number[]): number {
  return values.reduce((total, value) => total + value, 0);
}
