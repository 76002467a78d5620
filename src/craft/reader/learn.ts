import { deltaE00, type Triple3 } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import { encodeLight } from './encode-light.js';
import { sameColours } from './groups.js';
import { type Fitted, fitMethod, leftOutErrors, mean, type Pairs, termsOf, trendTerms } from './methods.js';
import { learnProcess } from './process.js';
import type { MethodName, ProcessParameters, ReaderSample } from './types.js';

export interface Learnt {
  readonly method: MethodName;
  readonly ridge: number;
  readonly process: readonly ProcessParameters[] | null;
  readonly fitted: Fitted;
  /** Mean over the pairs left out one colour at a time, CIEDE2000. */
  readonly meanDeltaE00: number;
}

/** Terms of root polynomials are light, of the others encoded light about its middle; both are of the order of 1. */
const ridges = [1e-9, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2] as const;
/** Settings of the process are learnt on so many pairs. */
const learnOn = 140;

/** For so many colours a term. */
const coloursEachTerm = 1.6;
/** Fewer colours do not teach a process. */
const leastForProcess = 20;

export const allMethods: readonly MethodName[] = [
  'matrix',
  'root-2',
  'root-3',
  'cube-root-1',
  'cube-root-2',
  'cube-root-3',
  'process',
];

export function pairsOf(samples: readonly ReaderSample[]): Pairs {
  const rgb = samples.map((sample) => sample.rgb);
  const lab = samples.map((sample) => sample.lab);
  return { rgb, lab, weight: samples.map(({ weight }) => weight ?? 1), groups: sameColours(rgb, lab) };
}

/** One way to learn, with its best ridge or settings; null when there are too few colours for it. */
export function learnBy(method: MethodName, pairs: Pairs, seed: number): Learnt | null {
  const colours = pairs.groups.length;
  if (method === 'process') {
    if (colours < leastForProcess) return null;
    const process = learnSettings(pairs, seed);
    const fitted = fitMethod('process', pairs, 0, process);
    return (
      fitted && { method, ridge: 0, process, fitted, meanDeltaE00: mean(leftOutErrors(fitted, pairs.lab)) }
    );
  }
  if (colours < coloursEachTerm * termsOf(method)) return null;
  let best: Learnt | null = null;
  for (const ridge of ridges) {
    const fitted = fitMethod(method, pairs, ridge, null);
    if (fitted === null) continue;
    const meanDeltaE00 = mean(leftOutErrors(fitted, pairs.lab));
    if (best === null || meanDeltaE00 < best.meanDeltaE00) {
      best = { method, ridge, process: null, fitted, meanDeltaE00 };
    }
  }
  return best;
}

/** The way that errs least on colours left out. Null when none can be used. */
export function learnBest(pairs: Pairs, methods: readonly MethodName[], seed: number): Learnt | null {
  let best: Learnt | null = null;
  for (const method of methods) {
    const learnt = learnBy(method, pairs, seed);
    if (learnt !== null && (best === null || learnt.meanDeltaE00 < best.meanDeltaE00)) best = learnt;
  }
  return best;
}

function learnSettings(pairs: Pairs, seed: number): ProcessParameters[] {
  const some = createRandom(seed)
    .shuffle(pairs.rgb.map((_, i) => i))
    .slice(0, learnOn);
  const x = some.map((i) => encodeLight(pairs.rgb[i]!));
  const trend = some.map((i) => trendTerms(pairs.rgb[i]!));
  const multiple = some.map((i) => 1 / pairs.weight[i]!);
  return [0, 1, 2].map((j) =>
    learnProcess(
      x,
      trend,
      some.map((i) => pairs.lab[i]![j]!),
      multiple,
    ),
  );
}

/** A pair is a stranger beyond so many ΔE00, and so many times what is usual. */
const oddDeltaE00 = 5;
const oddTimes = 6;
/** Of the pairs, at most this share may be strangers. */
export const mostStrangers = 0.15;

export interface Sifted {
  readonly kept: ReaderSample[];
  readonly strangers: { readonly sample: ReaderSample; readonly deltaE00: number }[];
}

/**
 * Parts the pairs that do not fit the others (a patch mistaken for another, a speck, a wrong line in the file): the
 * worst goes first, since it makes its neighbours look odd, and whoever fits in the end comes back.
 */
export function sift(samples: readonly ReaderSample[]): Sifted {
  let kept = [...samples];
  let gone: ReaderSample[] = [];
  const most = Math.ceil(mostStrangers * samples.length) + 1;
  while (gone.length < most) {
    const pairs = pairsOf(kept);
    const ways = families.flatMap((methods) => learnBest(pairs, methods, 1) ?? []);
    if (ways.length === 0) break;
    const byWay = ways.map(({ fitted }) => leftOutErrors(fitted, pairs.lab));
    const errors = kept.map((_, i) => Math.min(...byWay.map((one) => one[i]!)));
    const limit = oddLimit(errors);
    const worst = errors
      .map((error, i) => ({ error, i }))
      .filter(({ error }) => error > limit)
      .sort((a, b) => b.error - a.error)
      .slice(0, Math.max(1, Math.floor(kept.length / 60)));
    if (worst.length === 0) {
      const off = ({ rgb, lab }: ReaderSample): number =>
        Math.min(...ways.map(({ fitted }) => deltaE00(fitted.at(rgb).lab, lab)));
      return {
        kept: kept.concat(gone.filter((sample) => off(sample) < limit)),
        strangers: gone
          .filter((sample) => off(sample) >= limit)
          .map((sample) => ({ sample, deltaE00: off(sample) })),
      };
    }
    const out = new Set(worst.map(({ i }) => i));
    gone = gone.concat(kept.filter((_, i) => out.has(i)));
    kept = kept.filter((_, i) => !out.has(i));
  }
  return { kept, strangers: gone.map((sample) => ({ sample, deltaE00: Number.NaN })) };
}

/** Each goes astray at other ends of the colours, so that a pair is a stranger only when both find it odd. */
const families: readonly (readonly MethodName[])[] = [
  ['matrix', 'root-2', 'root-3'],
  ['cube-root-1', 'cube-root-2', 'cube-root-3'],
];

const oddLimit = (errors: readonly number[]): number =>
  Math.max(oddDeltaE00, oddTimes * (errors.toSorted((a, b) => a - b)[errors.length >> 1] ?? 0));

/**
 * The factor on each standard deviation at which 90 % of the pairs left out lie within their 90 % intervals, drawn
 * towards 1 as by 30 pairs.
 */
export function wideningOf(fitted: Fitted, pairs: Pairs): Triple3 {
  const said = fitted.leftOut();
  return [0, 1, 2].map((j) => {
    const needed = said
      .map(
        ({ lab, variance }, i) => Math.abs(lab[j]! - pairs.lab[i]![j]!) / (1.6449 * Math.sqrt(variance[j]!)),
      )
      .sort((a, b) => a - b);
    const quantile = needed[Math.min(needed.length - 1, Math.floor(0.9 * needed.length))]!;
    return Math.min(3, Math.max(0.7, (needed.length * quantile + 30) / (needed.length + 30)));
  }) as Triple3;
}
