import { median } from '#craft/numerics';
import { leastSquares } from './line-fit.js';

export interface Band {
  /** Half from trough to crest of the repeating part. */
  readonly amplitude: number;
  readonly period: number;
  /** Share of the whole's power at this period over the usual power near it. */
  readonly standsOut: number;
}

export interface Banding {
  readonly band: Band | null;
  /** Least amplitude that would have been found, typical over periods. */
  readonly limit: number;
}

/** Periods looked at: from `leastPeriod` to this share of the strip. */
const mostShare = 1 / 3.5;
const harmonics = 4;
/**
 * Power over the usual of the same octave. For white noise a line of a periodogram exceeds the mean z-fold with chance
 * e^−z (Scargle, Astrophys. J. 263, 1982); z = 16 leaves 1 in 10⁴ over a thousand lines. Drops' grain is not white;
 * the usual is taken as the median (ln 2 of the mean) of the lines within half an octave, so slow changes are followed.
 */
const leastStandsOut = 16;

/** A repeating swing in evenly spaced values; drifts as slow as a polynomial of third degree are no band. */
export function findBand(values: Float64Array, step: number, leastPeriod: number): Banding {
  const n = values.length;
  const length = n * step;
  const unit = (i: number): number => (2 * (i + 0.5)) / n - 1;
  const drift = leastSquares(
    Array.from(values, (_, i) => [1, unit(i), unit(i) ** 2, unit(i) ** 3]),
    Array.from(values),
  );
  if (!drift || n < 40) return { band: null, limit: Number.POSITIVE_INFINITY };
  const own = values.map((v, i) => v - drift.reduce((sum, c, k) => sum + c * unit(i) ** k, 0));
  const finest = 1 / leastPeriod;
  const stepF = 0.5 / length;
  const first = Math.round(1 / (mostShare * length) / stepF);
  const last = Math.floor(finest / stepF);
  const power = Float64Array.from({ length: last + 1 }, (_, k) =>
    k < first ? 0 : powerAt(own, step, k * stepF),
  );
  const usual = Float64Array.from({ length: last + 1 }, (_, k) => {
    if (k < first) return 1;
    const from = Math.max(first, Math.floor(k / 1.6));
    const to = Math.min(last, Math.max(Math.ceil(k * 1.6), from + 24));
    const low = Math.max(first, Math.min(from, to - 24));
    return Math.max(1e-30, median(Array.from(power.subarray(low, to + 1))) / Math.LN2);
  });
  let best = { k: -1, sum: 0 };
  for (let k = first; k <= last; k += 1) {
    let sum = 0;
    for (let h = 1; h <= harmonics && h * k <= last; h += 1) {
      let near = 0;
      for (let d = -1; d <= 1; d += 1)
        near = Math.max(near, (power[h * k + d] ?? 0) / (usual[h * k + d] ?? 1));
      sum += Math.max(0, near - 6) / h ** 0.5;
    }
    if (sum > best.sum) best = { k, sum };
  }
  const limit = 2 * Math.sqrt((leastStandsOut * median(Array.from(usual.subarray(first)))) / n);
  if (best.k < 0) return { band: null, limit };
  let standsOut = 0;
  for (let h = 1; h <= harmonics && h * best.k <= last; h += 1) {
    for (let d = -1; d <= 1; d += 1) {
      standsOut = Math.max(standsOut, (power[h * best.k + d] ?? 0) / (usual[h * best.k + d] ?? 1));
    }
  }
  if (standsOut < leastStandsOut) return { band: null, limit };
  const frequency = refined(own, step, best.k * stepF, stepF, finest);
  return {
    band: { amplitude: swingOf(own, step, frequency, finest), period: 1 / frequency, standsOut },
    limit,
  };
}

function powerAt(values: Float64Array, step: number, frequency: number): number {
  let [re, im] = [0, 0];
  // Chebyshev's recurrence: no sine within the loop.
  const turn = 2 * Math.PI * frequency * step;
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  let [c, s] = [1, 0];
  for (let i = 0; i < values.length; i += 1) {
    re += values[i]! * c;
    im += values[i]! * s;
    [c, s] = [c * cos - s * sin, s * cos + c * sin];
  }
  return (re * re + im * im) / values.length;
}

/** Where all harmonics together are strongest, within a line of the periodogram. */
function refined(own: Float64Array, step: number, about: number, reach: number, finest: number): number {
  let best = { frequency: about, sum: -1 };
  for (let d = -40; d <= 40; d += 1) {
    const frequency = about + (d / 40) * reach;
    let sum = 0;
    for (let h = 1; h <= harmonics && h * frequency <= finest; h += 1)
      sum += powerAt(own, step, h * frequency);
    if (sum > best.sum) best = { frequency, sum };
  }
  return best.frequency;
}

/** Half from trough to crest of the harmonics' sum. */
function swingOf(own: Float64Array, step: number, frequency: number, finest: number): number {
  const orders = Array.from({ length: harmonics }, (_, h) => h + 1).filter((h) => h * frequency <= finest);
  const rows = Array.from(own, (_, i) =>
    orders.flatMap((h) => {
      const angle = 2 * Math.PI * h * frequency * i * step;
      return [Math.cos(angle), Math.sin(angle)];
    }),
  );
  const fit = leastSquares(rows, Array.from(own));
  if (!fit) return 0;
  const wave = Array.from({ length: 200 }, (_, p) =>
    orders.reduce((sum, h, k) => {
      const angle = (2 * Math.PI * h * p) / 200;
      return sum + fit[2 * k]! * Math.cos(angle) + fit[2 * k + 1]! * Math.sin(angle);
    }, 0),
  );
  return (Math.max(...wave) - Math.min(...wave)) / 2;
}
