import { Problem } from '#craft/problem';
import { errorOf, together } from './expected.js';
import { reachOf } from './groups.js';
import { allMethods, type Learnt, learnBest, mostStrangers, pairsOf, sift, wideningOf } from './learn.js';
import { assembleMap } from './make-reader-map.js';
import { leftOutErrors, type Pairs } from './methods.js';
import type { LearntMapData, MethodName, ReaderMap, ReaderMapData, ReaderSample } from './types.js';

export interface FitReaderOptions {
  /** Only shuffles which pairs settings are learnt on. Default 1. */
  readonly seed?: number;
  /**
   * same-ink: the pairs are pressed with the inks that will be read · target: other colourants, so that the expected
   * error is widened. Default same-ink.
   */
  readonly by?: 'same-ink' | 'target';
}

/**
 * What other colourants add, ΔE00. A reader sees two colourants of one colour differently, and no pair of a target shows
 * how much. Rule: so much that the left-out error and this, as independent causes, give the mean and the 95 % of all
 * colours pooled over 30 virtual scanners (ten readers of odd number, three lamps), each learnt from a target of 264
 * patches in other colourants and used on the inks of a virtual printer: 2.10 and 4.94. Tests look at even numbers.
 */
const otherColourants: Beyond = { mean: 2, p95: 4.7 };
const nothing: Beyond = { mean: 0, p95: 0 };

const fewestColours = 12;
/** Beyond so many pairs more tell next to nothing, and telling 900 patches takes seconds. */
const mostPairs = 400;
/** A map that errs so much on colours left out is none: pairs of one thing with another. */
const hopelessDeltaE00 = 10;

/**
 * Grade B: learnt from pairs. Several ways are tried and the one that errs least on colours left out is taken; the same
 * left-out errors are the expected error. Pairs that do not fit the others are left out and named.
 * @throws Problem `chart.unusable` when the pairs are too few or have nothing to do with each other
 */
export function fitReaderMap(samples: readonly ReaderSample[], options: FitReaderOptions = {}): ReaderMap {
  const { seed = 1, by = 'same-ink' } = options;
  const found = learnFrom(samples, allMethods, fewestColours, seed);
  const beyond = by === 'target' ? otherColourants : nothing;
  const remarks =
    by === 'target'
      ? [
          'Calibrated by a target of other inks: they look a little different to the reader, and the expected error allows for it.',
          ...found.remarks,
        ]
      : found.remarks;
  return mapFrom(found, { grade: 'B', beyond, gain: 1, remarks });
}

export interface Found {
  readonly pairs: Pairs;
  readonly learnt: Learnt;
  readonly remarks: string[];
}

/** Looks the pairs over, leaves strangers out, learns. @throws Problem `chart.unusable` */
export function learnFrom(
  samples: readonly ReaderSample[],
  methods: readonly MethodName[],
  fewest: number,
  seed: number,
): Found {
  const usable = samples.filter(isUsable);
  const remarks: string[] = [];
  if (usable.length < samples.length) {
    remarks.push(`${samples.length - usable.length} pairs had no usable values and were left out.`);
  }
  const some = thinned(usable, mostPairs);
  const colours = pairsOf(some).groups.length;
  if (colours < fewest) {
    throw new Problem(
      'chart.unusable',
      `The reader can be compared on ${colours} different colours; at least ${fewest} are needed.`,
      { remedy: 'Use a sheet or target with more patches, and check that its file belongs to it.' },
    );
  }
  const { kept, strangers } = sift(some);
  const pairs = pairsOf(kept);
  const learnt = learnBest(pairs, methods, seed);
  if (
    learnt === null ||
    strangers.length > mostStrangers * some.length ||
    learnt.meanDeltaE00 > hopelessDeltaE00
  ) {
    throw new Problem(
      'chart.unusable',
      'What the reader saw and what the file says do not belong together: too many patches disagree.',
      {
        remedy:
          'Check that the file is of this very sheet or target, and that the picture was made without automatic colour or contrast correction.',
      },
    );
  }
  if (strangers.length > 0) {
    const names = strangers
      .slice(0, 8)
      .map(({ sample }) => sample.name ?? `pair ${samples.indexOf(sample) + 1}`);
    const more = strangers.length > names.length ? ` and ${strangers.length - names.length} more` : '';
    remarks.push(
      `Left out because ${strangers.length === 1 ? 'it does' : 'they do'} not fit the others: ${names.join(', ')}${more}.`,
    );
  }
  return { pairs, learnt, remarks };
}

/** ΔE00. */
export interface Beyond {
  readonly mean: number;
  readonly p95: number;
}

export interface MapOptions {
  readonly grade: 'B' | 'C';
  /** Error the pairs cannot show. */
  readonly beyond: Beyond;
  readonly gain: number;
  readonly remarks: readonly string[];
}

export function mapFrom({ pairs, learnt }: Found, options: MapOptions): ReaderMap {
  const { grade, beyond, gain, remarks } = options;
  const how: LearntMapData = {
    kind: 'learnt',
    method: learnt.method,
    rgb: pairs.rgb,
    lab: pairs.lab,
    weight: pairs.weight,
    ridge: learnt.ridge,
    process: learnt.process,
    widening: wideningOf(learnt.fitted, pairs),
    // A mean length of 1.596 standard deviations (Maxwell), and Lab distances of strong colours about twice ΔE00.
    beyondSd: (1.5 * beyond.mean) / 1.596,
    gain,
    reach: reachOf(pairs.rgb, pairs.groups),
  };
  const data: ReaderMapData = {
    format: 'dyewright-reader-map',
    version: 1,
    grade,
    how,
    expectedError: together(errorOf(leftOutErrors(learnt.fitted, pairs.lab)), beyond),
    remarks,
  };
  return assembleMap(data, how, learnt.fitted);
}

/** Light of a reader and colour of a surface, as far as they can be. */
const isUsable = ({ rgb, lab, weight }: ReaderSample): boolean =>
  rgb.every((v) => Number.isFinite(v) && v > -0.05 && v < 2) &&
  lab.every(Number.isFinite) &&
  lab[0] > -1 &&
  lab[0] < 130 &&
  (weight === undefined || (Number.isFinite(weight) && weight > 0));

/** Every so-manieth, so that what is left is spread like all. */
function thinned<T>(items: readonly T[], most: number): T[] {
  if (items.length <= most) return [...items];
  return Array.from({ length: most }, (_, i) => items[Math.floor((i * items.length) / most)]!);
}
