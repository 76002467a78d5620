import { bentCellTest } from './bent-cells.js';
import { clipUnit } from './clip.js';
import { gridFunction } from './grid.js';
import type { DeviceLink, GridLink, ShaperLink } from './link.js';
import { matrixFunction } from './lut-function.js';
import { sampleAt } from './sample-at.js';
import { createTransform } from './transform.js';

/**
 * A link as it is applied to pixels, exact in its bends, but in double precision and one colour at a time: for measuring
 * its error.
 */
export function linkFunction(link: DeviceLink): (input: ArrayLike<number>, output: Float64Array) => void {
  switch (link.kind) {
    case 'identity':
      return (input, output) => {
        for (let i = 0; i < 3; i += 1) output[i] = input[i]!;
      };
    case 'shaper':
      return shaperFunction(link);
    case 'grid':
      return gridLinkFunction(link);
  }
}

function shaperFunction(link: ShaperLink): (input: ArrayLike<number>, output: Float64Array) => void {
  const io = new Float64Array(3);
  const matrix = matrixFunction(Array.from(link.matrix));
  return (input, output) => {
    for (let i = 0; i < 3; i += 1) io[i] = sampleAt(link.inputCurves[i as 0], input[i]!);
    matrix(io);
    for (let i = 0; i < 3; i += 1)
      output[i] = sampleAt(link.outputCurves[i as 0], Math.sqrt(clipUnit(io[i]!)));
  };
}

function gridLinkFunction(link: GridLink): (input: ArrayLike<number>, output: Float64Array) => void {
  const values = Float32Array.from(link.table, (v) => v / 65535);
  const points = Array.from({ length: link.inputChannels }, () => link.gridPoints);
  const run = gridFunction(
    { inputChannels: link.inputChannels, outputChannels: 3, points, values },
    'tetrahedral',
  );
  const io = new Float64Array(16);
  const isBent = bentCellTest(link);
  const exact = link.bends === undefined ? null : createTransform(link.bends.chain);
  return (input, output) => {
    if (exact !== null && isBent(input)) {
      exact.convert(input, output);
      return;
    }
    for (let i = 0; i < link.inputChannels; i += 1) {
      const curve = link.inputCurves?.[i];
      io[i] = curve === undefined ? input[i]! : sampleAt(curve, input[i]!);
    }
    run(io);
    for (let i = 0; i < 3; i += 1) output[i] = io[i]!;
  };
}
