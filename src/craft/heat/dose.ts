import { Problem } from '#craft/problem';
import { zeroCelsiusK } from './ends.js';
import { valueAt } from './series.js';

/** Molar gas constant, J/(mol·K): exact since the SI of 2019 (CODATA 2018). */
export const gasConstant = 8.314462618;

/** How much faster the dye moves when hotter (Arrhenius). */
export interface DoseKinetics {
  readonly activationKJPerMol: number;
  readonly referenceC: number;
}

/**
 * Where nothing is measured yet. No activation energy of the transfer was found in print; two published optima (190 °C
 * for 120 s, 210 °C for 60 s) suggest about 64 kJ/mol as an inference, diffusion of disperse dyes in polyester is
 * usually put at 100 to 150 (from memory). So the prior is wide: a factor of `spread` either way is one standard deviation.
 */
export const priorKinetics = { activationKJPerMol: 90, referenceC: 200, spread: 1.35 } as const;

/** How many times faster than at the reference temperature. */
export function doseRate(celsius: number, kinetics: DoseKinetics): number {
  const inverse = 1 / (celsius + zeroCelsiusK) - 1 / (kinetics.referenceC + zeroCelsiusK);
  return Math.exp((-kinetics.activationKJPerMol * 1000 * inverse) / gasConstant);
}

/** A temperature over time, as a run's probe or a probe thermometer gives it. Times may repeat where it jumps. */
export interface Trace {
  readonly seconds: ArrayLike<number>;
  readonly celsius: ArrayLike<number>;
}

/**
 * Equivalent seconds at the reference temperature up to each sample: ∫ exp[−(Ea/R)(1/T − 1/Tref)] dt, with monotone
 * cubics between samples (Fritsch & Carlson, SIAM J. Numer. Anal. 17, 1980; slopes of Fritsch & Butland 1984) and Gauss's
 * three points in each. Samples that are not numbers add nothing.
 * @throws Problem `press.invalid` when times run backwards
 */
export function doseCourse(trace: Trace, kinetics: DoseKinetics): Float64Array {
  const { seconds, celsius } = trace;
  const n = seconds.length;
  const dose = new Float64Array(n);
  const slopes = monotoneSlopes(trace);
  for (let i = 1; i < n; i += 1) {
    const h = seconds[i]! - seconds[i - 1]!;
    if (!(h >= 0))
      throw new Problem('press.invalid', 'The times of a temperature trace run backwards.', {
        remedy: 'Put the samples in order of time.',
      });
    const [a, b] = [celsius[i - 1]!, celsius[i]!];
    let gained = 0;
    if (h > 0 && !Number.isNaN(a) && !Number.isNaN(b)) {
      const [ma, mb] = [slopes[i - 1]!.right * h, slopes[i]!.left * h];
      for (const [u, weight] of gaussThree) {
        const v = 1 - u;
        const value = v * v * (1 + 2 * u) * a + u * u * (3 - 2 * u) * b + u * v * (v * ma - u * mb);
        gained += weight * h * doseRate(value, kinetics);
      }
    }
    dose[i] = dose[i - 1]! + gained;
  }
  return dose;
}

/** Equivalent seconds at the reference temperature over the whole trace, or between two times. */
export function doseSeconds(
  trace: Trace,
  kinetics: DoseKinetics,
  span?: { readonly fromSeconds: number; readonly toSeconds: number },
): number {
  const dose = doseCourse(trace, kinetics);
  if (dose.length === 0) return 0;
  if (span === undefined) return dose.at(-1)!;
  return valueAt(trace.seconds, dose, span.toSeconds) - valueAt(trace.seconds, dose, span.fromSeconds);
}

const root = Math.sqrt(0.15);
const gaussThree = [
  [0.5 - root, 5 / 18],
  [0.5, 8 / 18],
  [0.5 + root, 5 / 18],
] as const;

/** Slopes left and right of each sample; they differ only where the trace jumps or begins. */
function monotoneSlopes({ seconds, celsius }: Trace): { left: number; right: number }[] {
  const n = seconds.length;
  const secant = (i: number): number => {
    if (i < 0 || i + 1 >= n) return Number.NaN;
    const h = seconds[i + 1]! - seconds[i]!;
    return h > 0 ? (celsius[i + 1]! - celsius[i]!) / h : Number.NaN;
  };
  return Array.from({ length: n }, (_, i) => {
    const [left, right] = [secant(i - 1), secant(i)];
    if (Number.isNaN(left) || Number.isNaN(right))
      return { left: Number.isNaN(left) ? 0 : left, right: Number.isNaN(right) ? 0 : right };
    if (left * right <= 0) return { left: 0, right: 0 };
    const [h0, h1] = [seconds[i]! - seconds[i - 1]!, seconds[i + 1]! - seconds[i]!];
    const [w0, w1] = [2 * h1 + h0, h1 + 2 * h0];
    const slope = (w0 + w1) / (w0 / left + w1 / right);
    return { left: slope, right: slope };
  });
}
