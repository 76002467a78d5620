import { curveFunction } from './curve.js';
import { gridFunction } from './grid.js';
import type { IccLut, IccStage } from './types.js';

/** Works in place on a row of at least 16 values. */
export type InPlace = (io: Float64Array) => void;

/** A table tag as one function, stage after stage. */
export function lutFunction(lut: IccLut, threeWay: 'tetrahedral' | 'trilinear'): InPlace {
  const steps = lut.stages.map((stage) => stageFunction(stage, threeWay));
  return (io) => {
    for (const step of steps) step(io);
  };
}

function stageFunction(stage: IccStage, threeWay: 'tetrahedral' | 'trilinear'): InPlace {
  switch (stage.kind) {
    case 'grid':
      return gridFunction(stage.grid, threeWay);
    case 'matrix':
      return matrixFunction(stage.matrix, stage.offset);
    case 'curves': {
      const curves = stage.curves.map(curveFunction);
      return (io) => {
        for (let i = 0; i < curves.length; i += 1) io[i] = curves[i]!(io[i]!);
      };
    }
  }
}

/** Row-major 3 × 3 and an offset. */
export function matrixFunction(m: readonly number[], offset: readonly number[] = [0, 0, 0]): InPlace {
  const [m0 = 0, m1 = 0, m2 = 0, m3 = 0, m4 = 0, m5 = 0, m6 = 0, m7 = 0, m8 = 0] = m;
  const [o0 = 0, o1 = 0, o2 = 0] = offset;
  return (io) => {
    const x = io[0]!;
    const y = io[1]!;
    const z = io[2]!;
    io[0] = m0 * x + m1 * y + m2 * z + o0;
    io[1] = m3 * x + m4 * y + m5 * z + o1;
    io[2] = m6 * x + m7 * y + m8 * z + o2;
  };
}
