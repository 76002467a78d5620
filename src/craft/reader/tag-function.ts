import { applyMatrix, labFromXyz, labInverse, type Matrix3, type Triple3, xyzFromLab } from '#craft/colour';
import type { LinearRgb } from '#craft/patchreading';
import { encodeLight } from './encode-light.js';
import type { ReadColour, TagMapData } from './types.js';

/** CIELAB's function of 0 and of 1: what encoded light runs between. */
const lowest = 16 / 116;

/** Light at a step of the grid. */
export const lightOfStep = (step: number, size: number): number =>
  labInverse(lowest + ((1 - lowest) * step) / (size - 1));

export function tagFunction(how: TagMapData): (rgb: readonly LinearRgb[]) => ReadColour[] {
  const { matrix, grid, scale, sdLab } = how;
  const toXyz = (rgb: LinearRgb): Triple3 =>
    matrix !== null
      ? applyMatrix(matrix as unknown as Matrix3, rgb)
      : grid !== null
        ? xyzFromLab(between(grid, rgb))
        : [rgb[0], rgb[1], rgb[2]];
  return (colours) =>
    colours.map((rgb) => {
      const [x, y, z] = toXyz(rgb);
      return {
        lab: labFromXyz([x * scale[0], y * scale[1], z * scale[2]]),
        sdLab: [sdLab[0], sdLab[1], sdLab[2]],
        // A tag speaks of every colour alike: nothing lies beyond what it was learnt on.
        known: true,
      };
    });
}

/** Trilinear in encoded light. */
function between(grid: NonNullable<TagMapData['grid']>, rgb: LinearRgb): Triple3 {
  const { size, lab } = grid;
  const place = encodeLight(rgb).map(
    (v) => Math.min(1, Math.max(0, (v - lowest) / (1 - lowest))) * (size - 1),
  );
  const cell = place.map((v) => Math.min(size - 2, Math.floor(v)));
  const out: Triple3 = [0, 0, 0];
  for (let corner = 0; corner < 8; corner += 1) {
    let share = 1;
    let at = 0;
    for (let d = 0; d < 3; d += 1) {
      const up = (corner >> d) & 1;
      const part = place[d]! - cell[d]!;
      share *= up ? part : 1 - part;
      at = at * size + cell[d]! + up;
    }
    for (let j = 0; j < 3; j += 1) out[j] = out[j]! + share * lab[3 * at + j]!;
  }
  return out;
}
