import { applyMatrix, inverseOf, type Matrix3, multiplyMatrices } from './matrix.js';
import type { Triple, Triple3 } from './triple.js';
import { d50, d65 } from './white.js';

/** Bradford cone responses: Lam 1985, as given in ICC.1:2022 Annex E.3. */
const cones: Matrix3 = [0.8951, 0.2664, -0.1614, -0.7502, 1.7135, 0.0367, 0.0389, -0.0685, 1.0296];
const fromCones = inverseOf(cones);

/** XYZ under one white → XYZ under another, linear Bradford (ICC.1:2022 Annex E.3). */
export function bradfordMatrix(from: Triple, to: Triple): Matrix3 {
  const a = applyMatrix(cones, from);
  const b = applyMatrix(cones, to);
  const scale: Matrix3 = [b[0] / a[0], 0, 0, 0, b[1] / a[1], 0, 0, 0, b[2] / a[2]];
  return multiplyMatrices(fromCones, multiplyMatrices(scale, cones));
}

const d65ToD50 = bradfordMatrix(d65, d50);
const d50ToD65 = bradfordMatrix(d50, d65);

export const xyzD50FromD65 = (xyz: Triple): Triple3 => applyMatrix(d65ToD50, xyz);
export const xyzD65FromD50 = (xyz: Triple): Triple3 => applyMatrix(d50ToD65, xyz);
