import { deltaE00, type Triple, type Triple3 } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import type { ColourModel } from './types.js';

/** How far the true colours are expected to lie from the predicted ones, over all device colours, ΔE00. */
export interface ExpectedError {
  readonly mean: number;
  /** 95 of 100 colours lie nearer. */
  readonly p95: number;
}

const colours = 512;
const drawsEach = 4;

/**
 * The model's own doubt as colour differences: colours spread over the device cube, and for each some that might be the
 * true one (normal, coordinates apart). Reading noise and what changes from print to print come on top.
 */
export function expectedError(model: ColourModel): ExpectedError {
  const random = createRandom(2);
  const rgb = Array.from(
    { length: colours },
    (): Triple => [random.uniform(), random.uniform(), random.uniform()],
  );
  const off: number[] = [];
  for (const { lab, sdLab } of model.predict(rgb)) {
    for (let draw = 0; draw < drawsEach; draw += 1) {
      const truth = lab.map((v, j) => v + sdLab[j]! * random.normal()) as Triple3;
      off.push(deltaE00(lab, truth));
    }
  }
  off.sort((a, b) => a - b);
  return { mean: off.reduce((sum, v) => sum + v, 0) / off.length, p95: off[Math.floor(0.95 * off.length)]! };
}
