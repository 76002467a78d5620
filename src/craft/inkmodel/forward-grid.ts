import type { Triple3 } from '#craft/colour';
import type { ColourModel } from './types.js';

/**
 * The model sampled once on a regular grid of device RGB and interpolated by tricubic convolution (Keys, IEEE Trans.
 * ASSP 29(6), 1981, a = −1/2): smooth, with slopes, and quick enough to search in.
 */
export interface ForwardGrid {
  /** Points along each channel. */
  readonly size: number;
  /** size³ × 3 Lab, r varying slowest. */
  readonly lab: Float64Array;
}

/** Points along a channel: tricubic interpolation then errs by far less than the model does. */
export const defaultGridSize = 19;

export function sampleForward(model: Pick<ColourModel, 'predictLab'>, size = defaultGridSize): ForwardGrid {
  const rgb = new Float64Array(size ** 3 * 3);
  let at = 0;
  for (let r = 0; r < size; r += 1) {
    for (let g = 0; g < size; g += 1) {
      for (let b = 0; b < size; b += 1) {
        rgb[at] = r / (size - 1);
        rgb[at + 1] = g / (size - 1);
        rgb[at + 2] = b / (size - 1);
        at += 3;
      }
    }
  }
  return { size, lab: model.predictLab(rgb) };
}

/** The same grid with each colour put through `change`. */
export function mapGrid(grid: ForwardGrid, change: (lab: Triple3) => Triple3): ForwardGrid {
  const lab = new Float64Array(grid.lab.length);
  for (let i = 0; i < lab.length; i += 3) {
    lab.set(change([grid.lab[i]!, grid.lab[i + 1]!, grid.lab[i + 2]!]), i);
  }
  return { size: grid.size, lab };
}

/** Scratch for the four taps, their slopes and their places along each channel. */
const taps = [0, 1, 2].map(() => new Float64Array(4));
const tapSlopes = [0, 1, 2].map(() => new Float64Array(4));
const places = [0, 1, 2].map(() => new Int32Array(4));

/**
 * Lab at r, g, b (clipped to 0..1) into `out` (3), and if `jacobian` is given (9, row-major) dLab/drgb.
 * Beyond the cube's faces the grid is continued by reflection through the face's value, which keeps straight lines
 * straight.
 */
export function forwardLab(
  grid: ForwardGrid,
  rgb: ArrayLike<number>,
  out: Float64Array,
  jacobian?: Float64Array,
): void {
  const { size, lab } = grid;
  for (let d = 0; d < 3; d += 1) prepareAxis(rgb[d]!, size, taps[d]!, tapSlopes[d]!, places[d]!);
  out.fill(0);
  jacobian?.fill(0);
  const [tr, tg, tb] = [taps[0]!, taps[1]!, taps[2]!];
  const [sr, sg, sb] = [tapSlopes[0]!, tapSlopes[1]!, tapSlopes[2]!];
  for (let i = 0; i < 4; i += 1) {
    const wr = tr[i]!;
    const dr = sr[i]!;
    if (wr === 0 && dr === 0) continue;
    const atR = places[0]![i]! * size;
    for (let j = 0; j < 4; j += 1) {
      const wg = tg[j]!;
      const dg = sg[j]!;
      const atG = (atR + places[1]![j]!) * size;
      for (let k = 0; k < 4; k += 1) {
        const wb = tb[k]!;
        const at = 3 * (atG + places[2]![k]!);
        const l = lab[at]!;
        const a = lab[at + 1]!;
        const b = lab[at + 2]!;
        const w = wr * wg * wb;
        out[0] = out[0]! + w * l;
        out[1] = out[1]! + w * a;
        out[2] = out[2]! + w * b;
        if (jacobian !== undefined) {
          const jr = dr * wg * wb;
          const jg = wr * dg * wb;
          const jb = wr * wg * sb[k]!;
          jacobian[0] = jacobian[0]! + jr * l;
          jacobian[1] = jacobian[1]! + jg * l;
          jacobian[2] = jacobian[2]! + jb * l;
          jacobian[3] = jacobian[3]! + jr * a;
          jacobian[4] = jacobian[4]! + jg * a;
          jacobian[5] = jacobian[5]! + jb * a;
          jacobian[6] = jacobian[6]! + jr * b;
          jacobian[7] = jacobian[7]! + jg * b;
          jacobian[8] = jacobian[8]! + jb * b;
        }
      }
    }
  }
}

/** Keys' weights at x; taps beyond the ends are folded in as 2·edge − mirror. */
function prepareAxis(
  x: number,
  size: number,
  weight: Float64Array,
  slope: Float64Array,
  place: Int32Array,
): void {
  const at = Math.min(1, Math.max(0, x)) * (size - 1);
  const cell = Math.min(size - 2, Math.floor(at));
  const t = at - cell;
  const t2 = t * t;
  const t3 = t2 * t;
  weight[0] = -0.5 * t3 + t2 - 0.5 * t;
  weight[1] = 1.5 * t3 - 2.5 * t2 + 1;
  weight[2] = -1.5 * t3 + 2 * t2 + 0.5 * t;
  weight[3] = 0.5 * t3 - 0.5 * t2;
  const k = size - 1;
  slope[0] = k * (-1.5 * t2 + 2 * t - 0.5);
  slope[1] = k * (4.5 * t2 - 5 * t);
  slope[2] = k * (-4.5 * t2 + 4 * t + 0.5);
  slope[3] = k * (1.5 * t2 - t);
  for (let i = 0; i < 4; i += 1) place[i] = cell - 1 + i;
  if (cell === 0) fold(weight, slope, place, 0, 1, 2);
  if (cell === size - 2) fold(weight, slope, place, 3, 2, 1);
}

/** value(outside) = 2·value(edge) − value(inside). */
function fold(
  weight: Float64Array,
  slope: Float64Array,
  place: Int32Array,
  outside: number,
  edge: number,
  inside: number,
): void {
  for (const v of [weight, slope]) {
    v[edge] = v[edge]! + 2 * v[outside]!;
    v[inside] = v[inside]! - v[outside]!;
    v[outside] = 0;
  }
  place[outside] = place[edge]!;
}
