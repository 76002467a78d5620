import { choleskyInPlace, inverseFromCholesky, solveCholesky } from '#craft/numerics';
import { type Aside, type Curve, curveAt, curveWithSlopes } from './curves.js';
import { type Evidence, misfit } from './evidence.js';

/** The most likely curve and how its parameters spread about it (Laplace's method). */
export interface CurveFit {
  readonly theta: Float64Array;
  /** Lower triangle L with covariance = L Lᵀ, row-major. */
  readonly spread: Float64Array;
  /** ln of the evidence's probability over all parameters, up to a constant that the scatter and z do not change. */
  readonly logEvidence: number;
}

/** Where each coupon stands on the curves: z and what lies beside the dose as `Curve` counts them. */
export interface CouponsAt {
  readonly z: ArrayLike<number>;
  readonly aside: readonly Aside[];
}

/**
 * Least misfit by damped Newton steps (Levenberg 1944; damping as Nielsen, IMM-REP-1999-05); then
 * Laplace: ln ∫ e^−f ≈ −f(θ̂) − ½ ln|H| (MacKay, Information Theory, 27).
 * @param slopeScatter standard deviation of a coupon's z: presses repeat themselves only so well
 */
export function fitCurve(
  curve: Curve,
  evidence: readonly Evidence[],
  { z, aside }: CouponsAt,
  scatter: number,
  slopeScatter: number,
  start?: ArrayLike<number>,
): CurveFit {
  const p = curve.prior.length;
  let theta = Float64Array.from(start ?? curve.prior.map(({ mean }) => mean));
  const scatters = new Float64Array(evidence.length);
  const gradient = new Float64Array(p);
  const hessian = new Float64Array(p * p);
  const row = new Float64Array(p);

  const setScatters = (): void => {
    evidence.forEach(({ coupon }, i) => {
      const [, alongZ] = curveWithSlopes(curve, theta, z[coupon]!, aside[coupon]!, row);
      scatters[i] = Math.hypot(scatter, alongZ * slopeScatter);
    });
  };
  const objective = (at: Float64Array): number => {
    let sum = 0;
    for (let j = 0; j < p; j += 1) sum += 0.5 * ((at[j]! - curve.prior[j]!.mean) / curve.prior[j]!.sd) ** 2;
    for (let i = 0; i < evidence.length; i += 1) {
      const { coupon } = evidence[i]!;
      sum += misfit(evidence[i]!, curveAt(curve, at, z[coupon]!, aside[coupon]!), scatters[i]!).value;
    }
    return sum;
  };
  const derivatives = (): void => {
    gradient.fill(0);
    hessian.fill(0);
    for (let j = 0; j < p; j += 1) {
      const { mean, sd } = curve.prior[j]!;
      gradient[j] = (theta[j]! - mean) / sd ** 2;
      hessian[j * p + j] = 1 / sd ** 2;
    }
    for (let i = 0; i < evidence.length; i += 1) {
      const { coupon } = evidence[i]!;
      const [value] = curveWithSlopes(curve, theta, z[coupon]!, aside[coupon]!, row);
      const { slope, curvature } = misfit(evidence[i]!, value, scatters[i]!);
      for (let a = 0; a < p; a += 1) {
        gradient[a] = gradient[a]! + slope * row[a]!;
        for (let b = 0; b <= a; b += 1)
          hessian[a * p + b] = hessian[a * p + b]! + curvature * row[a]! * row[b]!;
      }
    }
  };

  // Scatter that comes through the slope depends on the curve, so it is set a few times over.
  for (let round = 0; round < 3; round += 1) {
    setScatters();
    let value = objective(theta);
    let damping = 1e-3;
    for (let step = 0; step < 40; step += 1) {
      derivatives();
      const damped = hessian.slice();
      for (let j = 0; j < p; j += 1) damped[j * p + j] = hessian[j * p + j]! * (1 + damping);
      if (!choleskyInPlace(damped, p)) {
        damping *= 10;
        continue;
      }
      const move = solveCholesky(damped, p, gradient);
      const next = theta.map((v, j) => v - move[j]!);
      const found = objective(next);
      if (!(found < value)) {
        damping *= 6;
        if (damping > 1e8) break;
        continue;
      }
      const fall = value - found;
      theta = next;
      value = found;
      damping = Math.max(1e-9, damping / 5);
      if (fall < 1e-7) break;
    }
    if (slopeScatter === 0) break;
  }
  derivatives();
  const value = objective(theta);
  const factor = hessian.slice();
  choleskyInPlace(factor, p);
  let logEvidence = -value;
  for (let j = 0; j < p; j += 1) logEvidence -= Math.log(factor[j * p + j]!) + Math.log(curve.prior[j]!.sd);
  const spread = inverseFromCholesky(factor, p);
  choleskyInPlace(spread, p);
  return { theta, spread, logEvidence };
}
