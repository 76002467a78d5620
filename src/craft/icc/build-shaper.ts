import { invertMatrix, multiplyMatrices } from '#craft/colour';
import { curveFunction, inverseCurveFunction } from './curve.js';
import { findShaper, findTable } from './device-side.js';
import type { ShaperLink } from './link.js';
import { connectionScale } from './transform.js';
import type { TransformOptions } from './types.js';

/** 16 samples to an 8-bit code, and one on every code. */
const inputSamples = 16 * 255 + 1;
const outputSamples = 4097;

/** Matrix RGB to matrix RGB as a shaper, or null if either side has tables or the blacks differ. */
export function buildShaper(options: TransformOptions): ShaperLink | null {
  const { source, destination, intent } = options;
  if (findTable(source, 'A2B', intent) !== undefined || findTable(destination, 'B2A', intent) !== undefined)
    return null;
  const from = findShaper(source);
  const to = findShaper(destination);
  if (from === undefined || to === undefined) return null;
  const back = invertMatrix(to.matrix);
  const between = connectionScale(options);
  if (back === null || between?.offset.some((v) => v !== 0)) return null;
  const [x, y, z] = between?.scale ?? [1, 1, 1];
  const matrix = multiplyMatrices(back, multiplyMatrices([x, 0, 0, 0, y, 0, 0, 0, z], from.matrix));
  const input = from.curves.map((curve) => {
    const f = curveFunction(curve);
    return Float32Array.from({ length: inputSamples }, (_, i) => f(i / (inputSamples - 1)));
  });
  const output = to.curves.map((curve) => {
    const f = inverseCurveFunction(curve);
    return Float32Array.from({ length: outputSamples }, (_, i) =>
      Math.min(1, Math.max(0, f((i / (outputSamples - 1)) ** 2))),
    );
  });
  return {
    kind: 'shaper',
    inputChannels: 3,
    inputCurves: input as unknown as ShaperLink['inputCurves'],
    matrix: Float32Array.from(matrix),
    outputCurves: output as unknown as ShaperLink['outputCurves'],
  };
}
