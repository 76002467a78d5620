import type { GridLink } from './link.js';
import { sampleAt } from './sample-at.js';

/** Whether a place in the encoded source space lies in a cell that is worked out exactly. */
export function bentCellTest(link: GridLink): (encoded: ArrayLike<number>) => boolean {
  const { bends, gridPoints, inputCurves, inputChannels } = link;
  if (bends === undefined) return () => false;
  const last = gridPoints - 1;
  return (encoded) => {
    let cell = 0;
    for (let c = 0; c < inputChannels; c += 1) {
      const curve = inputCurves?.[c];
      const v = encoded[c]!;
      const place = curve === undefined ? v : sampleAt(curve, v);
      cell = cell * gridPoints + Math.min(Math.max(0, Math.floor(place * last)), last - 1);
    }
    return ((bends.cells[cell >> 3]! >> (cell & 7)) & 1) === 1;
  };
}
