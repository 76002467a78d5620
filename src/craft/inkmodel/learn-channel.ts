import { minimise } from '#craft/numerics';
import { negativeLogPosterior, priorOf, reaches, type TrendPrior, weights } from './likelihood.js';
import type { ChannelParameters } from './types.js';

/** Bounds of the unknowns' logarithms: reach, variance, noise. */
const bounds = {
  lower: [...Array(reaches).fill(-3), ...Array(weights).fill(-12), Math.log(0.02)] as number[],
  upper: [...Array(reaches).fill(2.5), ...Array(weights).fill(9), Math.log(8)] as number[],
};

/**
 * Hyperparameters of one coordinate by the maximum of marginal likelihood times priors (Rasmussen & Williams 2006,
 * eq. 5.8 and 5.9), with analytic gradients.
 * @param points count × 6, see kernel.ts
 * @param y count values, Lab units
 * @param noiseMultiple variance of each reading beside an ordinary one's
 * @param from where to go on from, a few steps only; absent: from scratch
 */
export function learnChannel(
  points: Float64Array,
  count: number,
  y: Float64Array,
  noiseMultiple: Float64Array,
  trendPrior: TrendPrior,
  from?: ChannelParameters,
): ChannelParameters {
  const objective = negativeLogPosterior(points, count, y, noiseMultiple, trendPrior);
  const found = minimise(objective, from === undefined ? coldStart(y) : warmStart(from), {
    ...bounds,
    maxIterations: from === undefined ? 50 : 12,
    gradientTolerance: 2e-2,
    valueTolerance: 1e-5,
  });
  const at = (q: number): number => Math.exp(found.x[q]!);
  return {
    kernel: {
      reach: [at(0), at(1), at(2), at(3), at(4), at(5)],
      variance: [at(6), at(7), at(8), at(9)],
      ...trendPrior,
    },
    noiseSd: at(10),
  };
}

function coldStart(y: Float64Array): number[] {
  const spread = Math.max(0.3, deviation(y));
  const first = Math.log(0.1 * spread * spread);
  return [
    ...Array.from({ length: reaches + weights }, (_, q) =>
      q < reaches ? priorOf(q).centre : first - 0.3 * (q - reaches),
    ),
    Math.log(Math.min(0.5, 0.3 * spread + 0.05)),
  ];
}

const warmStart = (from: ChannelParameters): number[] =>
  [...from.kernel.reach, ...from.kernel.variance, from.noiseSd].map(Math.log);

function deviation(y: Float64Array): number {
  let sum = 0;
  let squares = 0;
  for (const v of y) {
    sum += v;
    squares += v * v;
  }
  return Math.sqrt(Math.max(0, squares / y.length - (sum / y.length) ** 2));
}
