import type { KernelParameters } from './types.js';

/**
 * Covariance of two colours. A point is six numbers: device r, g, b (0..1), then three guide coordinates, which are
 * what the colour would look like on a screen (or, when a model is adapted, what the known model says). With
 * Matérn 5/2 functions (Rasmussen & Williams 2006, eq. 4.17), it is additive in the channels (Duvenaud, Nickisch &
 * Rasmussen, NIPS 2011) and radial in all three and in the guide; a trend that is trilinear in the channels and
 * linear in the guide is integrated out with a wide prior (Rasmussen & Williams 2006, 2.7).
 *
 *   k = w₁ Σ kᵢ + w₂ Σ kᵢkⱼ + w₃ M(|Δrgb/ℓ|) + w₄ M(|Δguide/ℓ|) + t² Σ hₘhₘ′
 */
export const pointSize = 6;

const root5 = Math.sqrt(5);

/**
 * Prior variance of a trend term beside the next simpler one's: constant, linear, pairs, all three. Chosen on
 * simulated printers that no test looks at.
 */
const trendTaper = 0.05;

/** Covariances of the point at `at` with `count` points, written to `out`. */
export function covarianceRow(
  parameters: KernelParameters,
  point: Float64Array,
  at: number,
  others: Float64Array,
  count: number,
  out: Float64Array,
): void {
  const [l0, l1, l2, l3, l4, l5] = parameters.reach;
  const s0 = root5 / l0;
  const s1 = root5 / l1;
  const s2 = root5 / l2;
  const s3 = root5 / l3;
  const s4 = root5 / l4;
  const s5 = root5 / l5;
  const [w1, w2, w3, w4] = parameters.variance;
  const t2 = parameters.trendSd * parameters.trendSd;
  const g2 = parameters.guideTrendSd * parameters.guideTrendSd;
  const a0 = point[at]!;
  const a1 = point[at + 1]!;
  const a2 = point[at + 2]!;
  const a3 = point[at + 3]!;
  const a4 = point[at + 4]!;
  const a5 = point[at + 5]!;
  const x0 = trendTaper * (2 * a0 - 1);
  const x1 = trendTaper * (2 * a1 - 1);
  const x2 = trendTaper * (2 * a2 - 1);
  for (let j = 0; j < count; j += 1) {
    const p = pointSize * j;
    const b0 = others[p]!;
    const b1 = others[p + 1]!;
    const b2 = others[p + 2]!;
    const b3 = others[p + 3]!;
    const b4 = others[p + 4]!;
    const b5 = others[p + 5]!;
    const r0 = Math.abs(a0 - b0) * s0;
    const r1 = Math.abs(a1 - b1) * s1;
    const r2 = Math.abs(a2 - b2) * s2;
    const r3 = (a3 - b3) * s3;
    const r4 = (a4 - b4) * s4;
    const r5 = (a5 - b5) * s5;
    const k0 = (1 + r0 + (r0 * r0) / 3) * Math.exp(-r0);
    const k1 = (1 + r1 + (r1 * r1) / 3) * Math.exp(-r1);
    const k2 = (1 + r2 + (r2 * r2) / 3) * Math.exp(-r2);
    const deviceSquare = r0 * r0 + r1 * r1 + r2 * r2;
    const device = Math.sqrt(deviceSquare);
    const guideSquare = r3 * r3 + r4 * r4 + r5 * r5;
    const guide = Math.sqrt(guideSquare);
    out[j] =
      w1 * (k0 + k1 + k2) +
      w2 * (k0 * k1 + k1 * k2 + k0 * k2) +
      w3 * (1 + device + deviceSquare / 3) * Math.exp(-device) +
      w4 * (1 + guide + guideSquare / 3) * Math.exp(-guide) +
      // The eight trilinear products factor: Σ hₘhₘ′ = Π (1 + c xᵢxᵢ′).
      t2 * ((1 + x0 * (2 * b0 - 1)) * (1 + x1 * (2 * b1 - 1)) * (1 + x2 * (2 * b2 - 1))) +
      g2 * (a3 * b3 + a4 * b4 + a5 * b5);
  }
}

/** Covariance of a point with itself. */
export function ownCovariance(parameters: KernelParameters, point: Float64Array, at: number): number {
  const out = new Float64Array(1);
  covarianceRow(parameters, point, at, point.subarray(at, at + pointSize), 1, out);
  return out[0]!;
}
