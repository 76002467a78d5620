import type { Laying } from './laying.js';
import { Params } from './laying.js';
import type { GridLink, ShaperLink } from './link-shape.js';
import { applyLinkPlain } from './plain.js';

const nodeBytes = 8;
const straight = Float32Array.of(0, 1);

/** Parameters of `assembly/parts/grid16.ts`: three or four channels through a grid. */
export function layGrid16(link: GridLink, laying: Laying): Params {
  const params = new Params();
  const n = link.gridPoints;
  const first = 4 - link.inputChannels;
  for (let c = 0; c < link.inputChannels; c += 1) {
    const curve = link.inputCurves?.[c] ?? straight;
    layCurve(params, (first + c) * 16, curve, { perValue: 1 / 65535, scale: n - 1 }, laying);
  }
  params.u32(64, laying.place(paddedNodes(link)));
  params.f32(68, n - 2);
  for (let axis = 0; axis < 4; axis += 1) params.f32(72 + axis * 4, n ** (3 - axis));
  params.u32(88, n ** 3 * nodeBytes);
  params.u32(96, n * n * nodeBytes);
  params.u32(100, n * nodeBytes);
  params.u32(104, nodeBytes);
  params.u32(108, (n * n + n + 1) * nodeBytes);
  return params;
}

/** Parameters of `assembly/parts/shaper16.ts`. */
export function layShaper16(link: ShaperLink, laying: Laying): Params {
  const params = new Params();
  for (let c = 0; c < 3; c += 1) {
    layCurve(params, c * 16, link.inputCurves[c]!, { perValue: 1 / 65535, scale: 1, clip: false }, laying);
    layCurve(params, 48 + c * 16, link.outputCurves[c]!, { perValue: 1, scale: 65535 }, laying);
  }
  for (let i = 0; i < 9; i += 1) params.f32(96 + i * 4, link.matrix[i]!);
  return params;
}

/** Parameters of `assembly/parts/grey.ts`: one channel, every value worked out beforehand by the plain twin. */
export function layGrey16(link: GridLink, laying: Laying): Params {
  const every = Uint16Array.from({ length: 65536 }, (_, value) => value);
  const rgb = new Uint16Array(65536 * 3);
  applyLinkPlain(link, every, rgb, 65536, 16);
  const table = new Uint16Array(65536 * 4);
  for (let v = 0; v < 65536; v += 1) table.set(rgb.subarray(v * 3, v * 3 + 3), v * 4);
  const params = new Params();
  params.u32(0, laying.place(table));
  return params;
}

interface CurveUse {
  /** Multiplies what the loop looks up, to bring it to 0..1. */
  readonly perValue: number;
  /** Multiplies what the curve gives. */
  readonly scale: number;
  /** Keep what the curve gives within 0..1 (before scaling). */
  readonly clip?: boolean;
}

/** A curve's parameters, as `assembly/parts/curve.ts` reads them. */
function layCurve(params: Params, at: number, samples: Float32Array, use: CurveUse, laying: Laying): void {
  // A single sample is a constant; the loop needs two to lie between.
  const source = samples.length === 1 ? Float32Array.of(samples[0]!, samples[0]!) : samples;
  const kept = use.clip === false ? source : source.map((value) => Math.min(Math.max(value, 0), 1));
  params.u32(at, laying.place(kept.map((value) => value * use.scale)));
  params.f32(at + 4, (source.length - 1) * use.perValue);
  params.f32(at + 8, source.length - 2);
}

/** Four u16 a node: R, G, B and 0. */
function paddedNodes(link: GridLink): Uint16Array {
  const nodes = link.table.length / 3;
  const padded = new Uint16Array(nodes * 4);
  for (let node = 0; node < nodes; node += 1) {
    padded.set(link.table.subarray(node * 3, node * 3 + 3), node * 4);
  }
  return padded;
}
