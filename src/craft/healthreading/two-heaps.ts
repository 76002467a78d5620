import { quantile } from '#craft/numerics';

export interface Heaps {
  readonly areTwo: boolean;
  readonly low: number;
  readonly high: number;
  /** Within a heap, and of the difference of the two middles. */
  readonly sd: number;
  readonly sdOfGap: number;
}

/** Neither heap holds less than this share: a few stray rows (crooked nozzles) are no pass. */
const leastShare = 0.15;
/** Two Gaussians of equal width have two crests only when further apart than two of their σ. */
const leastGapInSd = 2.5;
/** Beyond the outer tenths by this share of what lies between them (3.2 σ of a Gaussian) a value is stray. */
const strayRoom = 0.75;
/** By so much must two Gaussians explain the values better (Bayesian information criterion, Schwarz 1978). */
const leastGain = 20;

/**
 * One heap or two: a mixture of two Gaussians of one width (expectation and maximisation, Dempster, Laird & Rubin 1977)
 * against a single one; values far from all others are left out before.
 */
export function twoHeaps(values: readonly number[]): Heaps {
  // By tenths, not by the median's own spread: of two unequal heaps the median sits in one and calls the other stray.
  const [low10, high10] = [quantile(values, 0.1), quantile(values, 0.9)];
  const room = strayRoom * (high10 - low10) + 1e-9;
  const kept = values.filter((v) => v >= low10 - room && v <= high10 + room);
  const n = kept.length;
  const mean = kept.reduce((sum, v) => sum + v, 0) / n;
  const variance = Math.max(1e-12, kept.reduce((sum, v) => sum + (v - mean) ** 2, 0) / n);
  const one = { areTwo: false, low: mean, high: mean, sd: Math.sqrt(variance), sdOfGap: 0 };
  if (n < 12) return one;
  let [low, high, share, own] = [mean - Math.sqrt(variance), mean + Math.sqrt(variance), 0.5, variance / 4];
  let loglikelihood = Number.NEGATIVE_INFINITY;
  for (let round = 0; round < 200; round += 1) {
    let [sumHigh, momentHigh, momentLow, total] = [0, 0, 0, 0];
    const parts = kept.map((v) => {
      const h = share * Math.exp(-((v - high) ** 2) / (2 * own));
      const l = (1 - share) * Math.exp(-((v - low) ** 2) / (2 * own));
      const sum = Math.max(1e-300, h + l);
      total += Math.log(sum) - 0.5 * Math.log(2 * Math.PI * own);
      sumHigh += h / sum;
      momentHigh += (h / sum) * v;
      momentLow += (1 - h / sum) * v;
      return h / sum;
    });
    high = momentHigh / Math.max(1e-9, sumHigh);
    low = momentLow / Math.max(1e-9, n - sumHigh);
    share = Math.min(0.999, Math.max(0.001, sumHigh / n));
    own =
      kept.reduce((sum, v, i) => sum + parts[i]! * (v - high) ** 2 + (1 - parts[i]!) * (v - low) ** 2, 0) / n;
    own = Math.max(own, 1e-6 * variance);
    if (Math.abs(total - loglikelihood) < 1e-7 * n) break;
    loglikelihood = total;
  }
  const single = -0.5 * n * (Math.log(2 * Math.PI * variance) + 1);
  const gain = 2 * (loglikelihood - single) - 2 * Math.log(n);
  const sd = Math.sqrt(own);
  const isShared = Math.min(share, 1 - share) >= leastShare;
  if (!(gain > leastGain && isShared && high - low > leastGapInSd * sd)) return one;
  const sdOfGap = sd * Math.sqrt(1 / (share * n) + 1 / ((1 - share) * n));
  return { areTwo: true, low, high, sd, sdOfGap };
}
