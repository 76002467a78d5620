import type { Triple } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import type { InkModel } from './types.js';

const colours = 64;

/**
 * Doubt and reading noise of a model beside the spread of the measured colours, as variances: some thousandths for a
 * chart that a model can follow, towards 1 where the colours have nothing to do with the device values.
 * @param lab all measured colours of the chart
 */
export function unexplainedShare(model: InkModel, lab: readonly Triple[]): number {
  const random = createRandom(3);
  const rgb = Array.from(
    { length: colours },
    (): Triple => [random.uniform(), random.uniform(), random.uniform()],
  );
  const said = model.predict(rgb);
  let unexplained = 0;
  let spread = 0;
  for (let j = 0; j < 3; j += 1) {
    const mean = lab.reduce((sum, v) => sum + v[j]!, 0) / lab.length;
    spread += lab.reduce((sum, v) => sum + (v[j]! - mean) ** 2, 0) / lab.length;
    unexplained += said.reduce((sum, one) => sum + one.sdLab[j]! ** 2, 0) / colours + model.noiseSd[j]! ** 2;
  }
  return spread === 0 ? 1 : unexplained / spread;
}
