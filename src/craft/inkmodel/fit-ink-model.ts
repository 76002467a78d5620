import type { MeasurementTable } from '#craft/cgats';
import { deltaE00, type Triple3 } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import { conditionChannel, leaveOneOut } from './channel-process.js';
import { pointSize } from './kernel.js';
import { learnChannel } from './learn-channel.js';
import type { TrendPrior } from './likelihood.js';
import { assembleInkModel, conditionAll, makeInkModel, pointsOf, targets } from './model.js';
import { neutralLift } from './neutral-axis.js';
import { patchesOf } from './patches.js';
import type { ChannelParameters, InkModel, InkModelData, OutlierPatch } from './types.js';

export interface FitOptions {
  /** Only shuffles which patches hyperparameters are learnt on. Default 1. */
  readonly seed?: number;
  /** Leave out patches that do not fit the others, and name them. Default true. */
  readonly dropOutliers?: boolean;
}

/**
 * Hyperparameters are learnt on so many patches, then polished on more: the time grows as the cube, and what more
 * patches tell is only how rough the printer is between near ones.
 */
const learnOn = 160;
const polishOn = 256;
/** Left-out residuals are worked out in blocks of at most so many. */
const blockOf = 200;
/** A patch is a stranger beyond so many standard deviations and so many ΔE00 from what the others say of it. */
const oddDistance = 6;
const oddDeltaE00 = 2.5;
/** While the noise learnt is still spoilt by wrong patches, so many are suspect; who fits in the end comes back. */
const suspectDistance = 4.5;
/** Rounds of looking for strangers: each takes the worst fiftieth, so that a fifth can be named. */
const mostRounds = 12;
/** Repeats of patches (beyond the first of each) below which they tell too little. */
const fewestRepeats = 8;
/** Steps of the neutral axis that are looked at. */
const neutralSteps = 129;

/**
 * Learns what the printer does.
 * @param table RGB device values with Lab (D50, 2°)
 * @throws Problem `chart.unusable` when there is no RGB, no colour, too few patches or values that cannot be
 */
export function fitInkModel(table: MeasurementTable, options: FitOptions = {}): InkModel {
  return learn(table, null, { trendSd: 50, guideTrendSd: 0 }, options);
}

/**
 * Learns how a new paper or blank differs from a model already known; 20 to 50 patches are enough.
 * @throws Problem as `fitInkModel`
 */
export function adaptInkModel(base: InkModel, table: MeasurementTable, options: FitOptions = {}): InkModel {
  return learn(table, base, { trendSd: 10, guideTrendSd: 10 }, options);
}

function learn(
  table: MeasurementTable,
  base: InkModel | null,
  trendPrior: TrendPrior,
  options: FitOptions,
): InkModel {
  const patches = patchesOf(table, base === null ? 12 : 6);
  const order = createRandom(options.seed ?? 1).shuffle(patches.map((_, i) => i));
  let kept = order;
  let outliers: OutlierPatch[] = [];
  let channels = learnAll(kept);
  for (let round = 0; round < mostRounds && options.dropOutliers !== false; round += 1) {
    const left = leftOut(kept, channels);
    const odd = strangers(left.distance, kept.length);
    if (odd.length === 0) break;
    const named = odd
      .map((k) => {
        const patch = patches[kept[k]!]!;
        const expectedLab = patch.lab.map((v, j) => v - left.residual[j]![k]!) as Triple3;
        return {
          index: patch.index,
          sampleId: patch.sampleId,
          measuredLab: patch.lab,
          expectedLab,
          deltaE00: deltaE00(patch.lab, expectedLab),
        };
      })
      .filter((outlier) => outlier.deltaE00 > oddDeltaE00);
    if (named.length === 0) break;
    outliers = outliers.concat(named);
    const gone = new Set(named.map((outlier) => kept.findIndex((i) => patches[i]!.index === outlier.index)));
    kept = kept.filter((_, k) => !gone.has(k));
    channels = learnAll(kept);
  }
  const fitting = kept.length;
  ({ kept, outliers } = takeBack(kept, channels, outliers));
  if (kept.length > fitting) channels = learnAll(kept);
  if (kept.length > learnOn) channels = learnAll(kept, channels);
  const left = leftOut(kept, channels);
  const widening = [0, 1, 2].map((j) =>
    wideningOf(
      left.residual[j]!,
      left.variance[j]!,
      channels[j]!.noiseSd,
      (k) => patches[kept[k]!]!.noiseMultiple,
    ),
  ) as Triple3;
  return withRisingNeutral(dataOf(kept, channels, widening, outliers, roughness(kept, channels)));

  function arrays(rows: readonly number[]): {
    points: Float64Array;
    multiple: Float64Array;
    y: (j: number) => Float64Array;
  } {
    const at = pointsOf(Float64Array.from(rows.flatMap((i) => [...patches[i]!.rgb])), base);
    const lab = rows.map((i) => patches[i]!.lab);
    return {
      points: at.points,
      multiple: Float64Array.from(rows, (i) => patches[i]!.noiseMultiple),
      y: (j) => targets(lab, at.base, j),
    };
  }

  function learnAll(
    rows: readonly number[],
    from?: InkModelData['channels'],
  ): [ChannelParameters, ChannelParameters, ChannelParameters] {
    const some = rows.slice(0, from === undefined ? learnOn : polishOn);
    const { points, multiple, y } = arrays(some);
    const one = (j: number): ChannelParameters =>
      learnChannel(points, some.length, y(j), multiple, trendPrior, from?.[j]);
    return [one(0), one(1), one(2)];
  }

  /** Early rounds judge with hyperparameters that wrong patches spoilt: who fits the last ones comes back. */
  function takeBack(
    rows: number[],
    by: InkModelData['channels'],
    named: readonly OutlierPatch[],
  ): { kept: number[]; outliers: OutlierPatch[] } {
    if (named.length === 0) return { kept: rows, outliers: [] };
    const model = makeInkModel(dataOf(rows, by, [1, 1, 1], [], [0, 0, 0]));
    const said = model.predict(named.map((outlier) => patches[outlier.index]!.rgb));
    const fits = named.map((outlier, k) => {
      let square = 0;
      for (let j = 0; j < 3; j += 1) {
        const off = outlier.measuredLab[j]! - said[k]!.lab[j]!;
        square += off ** 2 / (said[k]!.sdLab[j]! ** 2 + model.noiseSd[j]! ** 2);
      }
      return Math.sqrt(square) < oddDistance || deltaE00(outlier.measuredLab, said[k]!.lab) < oddDeltaE00;
    });
    return {
      kept: rows.concat(named.filter((_, k) => fits[k]).map((outlier) => outlier.index)),
      outliers: named
        .map((outlier, k) => ({
          ...outlier,
          expectedLab: said[k]!.lab,
          deltaE00: deltaE00(outlier.measuredLab, said[k]!.lab),
        }))
        .filter((_, k) => !fits[k]),
    };
  }

  function dataOf(
    rows: readonly number[],
    by: InkModelData['channels'],
    widening: Triple3,
    named: readonly OutlierPatch[],
    roughnessSd: Triple3,
  ): InkModelData {
    return {
      format: 'dyewright-ink-model',
      version: 1,
      rgb: rows.map((i) => patches[i]!.rgb),
      lab: rows.map((i) => patches[i]!.lab),
      noiseMultiple: rows.map((i) => patches[i]!.noiseMultiple),
      channels: by,
      widening,
      roughnessSd,
      outliers: named.toSorted((a, b) => b.deltaE00 - a.deltaE00),
      neutralLift: [],
      base: base?.data ?? null,
    };
  }

  /**
   * What scatters about a smooth model is reading noise and the printer's own kinks, which look alike. Patches printed
   * more than once tell: their scatter is noise alone. What is beyond it (pooled over the coordinates, less a margin
   * for the few repeats) is doubt about the colour itself.
   */
  function roughness(rows: readonly number[], by: InkModelData['channels']): Triple3 {
    const groups = new Map<string, number[]>();
    for (const i of rows) {
      const key = patches[i]!.rgb.join();
      groups.set(key, [...(groups.get(key) ?? []), i]);
    }
    let squares = 0;
    let freedom = 0;
    for (const group of groups.values()) {
      if (group.length < 2) continue;
      freedom += group.length - 1;
      for (let j = 0; j < 3; j += 1) {
        const mean = group.reduce((sum, i) => sum + patches[i]!.lab[j]!, 0) / group.length;
        for (const i of group) squares += ((patches[i]!.lab[j]! - mean) / by[j]!.noiseSd) ** 2 / 3;
      }
    }
    if (freedom < fewestRepeats) return [0, 0, 0];
    const share = Math.max(0, 1 - (1.1 * squares) / freedom);
    return by.map((channel) => channel.noiseSd * Math.sqrt(share)) as Triple3;
  }

  /** For each kept patch what the others of its block say. */
  function leftOut(
    rows: readonly number[],
    by: readonly ChannelParameters[],
  ): { residual: Float64Array[]; variance: Float64Array[]; distance: Float64Array } {
    const residual = [0, 1, 2].map(() => new Float64Array(rows.length));
    const variance = [0, 1, 2].map(() => new Float64Array(rows.length));
    const distance = new Float64Array(rows.length);
    const blocks = Math.ceil(rows.length / blockOf);
    for (let block = 0; block < blocks; block += 1) {
      const from = Math.floor((block * rows.length) / blocks);
      const to = Math.floor(((block + 1) * rows.length) / blocks);
      const { points, multiple, y } = arrays(rows.slice(from, to));
      for (let j = 0; j < 3; j += 1) {
        const said = leaveOneOut(conditionChannel(by[j]!, points, points.length / pointSize, y(j), multiple));
        residual[j]!.set(said.residual, from);
        variance[j]!.set(said.variance, from);
        for (let k = from; k < to; k += 1) {
          distance[k] = distance[k]! + said.residual[k - from]! ** 2 / said.variance[k - from]!;
        }
      }
    }
    return { residual, variance, distance: distance.map(Math.sqrt) };
  }
}

/**
 * Patches whose distance is out of all proportion: wrong patches blow up the noise that is learnt, so distances
 * are first brought to the scale at which half of them are as a χ distribution of three has them (median 1.538).
 */
function strangers(distance: Float64Array, count: number): number[] {
  const median = distance.slice().sort()[count >> 1]!;
  const scale = Math.min(1, median / 1.538);
  const odd = Array.from(distance.keys()).filter((k) => distance[k]! / scale > suspectDistance);
  // A wrong patch makes its neighbours look odd: take the worst first, look again afterwards.
  odd.sort((a, b) => distance[b]! - distance[a]!);
  return odd.slice(0, Math.max(1, Math.floor(count / 50)));
}

/**
 * The factor on the standard deviation at which 90 % of the left-out readings lie within their 90 % intervals,
 * drawn towards 1.35 (hyperparameters are taken for certain and printers have kinks between patches, so that plain
 * intervals held 84 to 87 % on simulated printers that no test looks at) as by 60 patches.
 */
function wideningOf(
  residual: Float64Array,
  variance: Float64Array,
  noiseSd: number,
  multipleOf: (k: number) => number,
): number {
  const count = residual.length;
  const needed = Float64Array.from(residual, (r, k) => {
    const noise = noiseSd * noiseSd * multipleOf(k);
    const latent = Math.max(1e-6, variance[k]! - noise);
    const beyond = (r / 1.6449) ** 2 - noise;
    return beyond <= 0 ? 0 : Math.sqrt(beyond / latent);
  }).sort();
  const quantile = needed[Math.min(count - 1, Math.floor(0.9 * count))]!;
  const drawn = (count * quantile + 60 * 1.35) / (count + 60);
  return Math.min(2.5, Math.max(0.9, drawn));
}

function withRisingNeutral(data: InkModelData): InkModel {
  const processes = conditionAll(data);
  const model = assembleInkModel(data, processes);
  const greys = Float64Array.from(
    { length: 3 * neutralSteps },
    (_, i) => Math.floor(i / 3) / (neutralSteps - 1),
  );
  const lab = model.predictLab(greys);
  const lift = neutralLift(Float64Array.from({ length: neutralSteps }, (_, i) => lab[3 * i]!));
  return lift.length === 0 ? model : assembleInkModel({ ...data, neutralLift: lift }, processes);
}
