import type { GridLink, ShaperLink } from '../link-shape.js';

/** A seeded stream of numbers 0..1 (mulberry32, public domain), so that a failing case can be met again. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** A grid filled by a function of the node's position 0..1 along each channel (the first varies slowest). */
export function gridFrom(
  inputChannels: 1 | 3 | 4,
  gridPoints: number,
  colour: (position: readonly number[]) => readonly [number, number, number],
  inputCurves: readonly Float32Array[] | null = null,
): GridLink {
  const nodes = gridPoints ** inputChannels;
  const table = new Uint16Array(nodes * 3);
  for (let node = 0; node < nodes; node += 1) {
    const position = Array.from(
      { length: inputChannels },
      (_, c) => (Math.floor(node / gridPoints ** (inputChannels - 1 - c)) % gridPoints) / (gridPoints - 1),
    );
    for (const [c, value] of colour(position).entries()) table[node * 3 + c] = Math.round(value * 65535);
  }
  return { kind: 'grid', inputChannels, gridPoints, inputCurves, table, error8: { mean: 0, max: 0 } };
}

/** A grid of noise: as rough as a grid can be, so every wrong node or weight shows. */
export function noiseGrid(
  inputChannels: 1 | 3 | 4,
  gridPoints: number,
  seed: number,
  curves = false,
): GridLink {
  const random = seeded(seed);
  const inputCurves = curves
    ? Array.from({ length: inputChannels }, () =>
        powerCurve(0.4 + 2 * random(), 2 + Math.floor(random() * 300)),
      )
    : null;
  return gridFrom(inputChannels, gridPoints, () => [random(), random(), random()], inputCurves);
}

/** A smooth bend with lifted black and off-white paper, of the kind a press makes. */
export function pressLikeGrid(inputChannels: 1 | 3 | 4, gridPoints: number): GridLink {
  return gridFrom(inputChannels, gridPoints, (p) => {
    const bend = (v: number, by: number) => 0.06 + 0.88 * v ** by;
    const [a, b, c] = [p[p.length - 3] ?? p[0]!, p[p.length - 2] ?? p[0]!, p[p.length - 1]!];
    const dim = inputChannels === 4 ? 1 - 0.9 * p[0]! : 1;
    return [
      dim * (0.85 * bend(a, 1.3) + 0.15 * bend(b, 0.8)),
      dim * (0.1 * bend(a, 1) + 0.8 * bend(b, 0.7) + 0.1 * bend(c, 1.5)),
      dim * (0.2 * bend(b, 1.1) + 0.8 * bend(c, 1.6)),
    ];
  });
}

/** x^exponent, sampled. */
export function powerCurve(exponent: number, samples: number): Float32Array {
  return Float32Array.from({ length: samples }, (_, i) => (i / (samples - 1)) ** exponent);
}

/** sRGB's curve one way and a power the other, with a matrix that takes some colours out of range. */
export function shaperLink(exponent: number, matrix: readonly number[]): ShaperLink {
  const decode = Float32Array.from({ length: 4096 }, (_, i) => srgbToLinear(i / 4095));
  const encode = Float32Array.from({ length: 4096 }, (_, i) => ((i / 4095) ** 2) ** (1 / exponent));
  return {
    kind: 'shaper',
    inputChannels: 3,
    inputCurves: [decode, decode, decode],
    matrix: Float32Array.from(matrix),
    outputCurves: [encode, encode, encode],
  };
}

/** IEC 61966-2-1, clause 5.2. */
export function srgbToLinear(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
}
