import type { Triple, Triple3 } from '#craft/colour';
import { deltaE00 } from '#craft/colour';
import { createRandom, type Random, solveLower } from '#craft/numerics';
import type { ChannelProcess } from './channel-process.js';
import { covarianceRow, ownCovariance, pointSize } from './kernel.js';
import { type Conditioned, conditionAll, pointsOf } from './model.js';
import type { InkModel } from './types.js';

export interface FollowUpChoice {
  readonly count: number;
  /** The same seed gives the same patches. */
  readonly seed: number;
  /** Device colours that matter more than others (an artwork's), with how much each does. */
  readonly crowd?: readonly { readonly rgb: Triple; readonly weight: number }[] | undefined;
}

/** Colours whose doubt is to shrink, and colours that may be printed. */
const mostTargets = 360;
const mostCandidates = 700;
/** With a crowd, this share of the care still goes to all other colours, so that none is left to guesswork. */
const careForTheRest = 0.1;

/**
 * Device colours, on 8-bit codes, that together lessen the model's doubt most: one after the other the one whose
 * reading would take most variance, counted in ΔE00, off the colours that matter. The variance a reading leaves does
 * not depend on what is read (Rasmussen & Williams 2006, eq. 2.26; Krause, Singh & Guestrin, JMLR 9, 2008, on choosing
 * greedily), so that all can be chosen before any is printed.
 */
export function chooseFollowUp(model: InkModel, options: FollowUpChoice): Triple3[] {
  const random = createRandom(options.seed);
  const conditioned = conditionAll(model.data);
  const { targets, weights } = targetsOf(options, random);
  const candidates = candidatesOf(options, random);
  const all = targets.concat(candidates);
  const lab = model.predict(targets).map((said) => said.lab);
  const channels = conditioned.channels.map((process, j) =>
    posterior(process, pointsFor(all, conditioned), all.length, {
      targets: targets.length,
      care: weights.map((weight, t) => weight * visible(lab[t]!, j) ** 2 * model.data.widening[j]! ** 2),
      noise: process.parameters.noiseSd ** 2,
    }),
  );
  const chosen: Triple3[] = [];
  const taken = new Set<number>();
  while (chosen.length < options.count && taken.size < candidates.length) {
    let best = -1;
    let bestGain = -1;
    for (let c = 0; c < candidates.length; c += 1) {
      if (taken.has(c)) continue;
      const gain = channels.reduce((sum, channel) => sum + channel.gain(c), 0);
      if (gain > bestGain) {
        best = c;
        bestGain = gain;
      }
    }
    taken.add(best);
    for (const channel of channels) channel.take(best);
    chosen.push(candidates[best]!);
  }
  return chosen;
}

const pointsFor = (rgb: readonly Triple[], { base }: Conditioned): Float64Array =>
  pointsOf(Float64Array.from(rgb.flat()), base).points;

function targetsOf(
  { crowd = [] }: FollowUpChoice,
  random: Random,
): { targets: Triple3[]; weights: number[] } {
  const total = crowd.reduce((sum, one) => sum + one.weight, 0);
  const rest = crowd.length === 0 ? mostTargets : Math.round(mostTargets / 3);
  const targets = Array.from({ length: rest }, () => anyColour(random));
  const weights = targets.map(() => (total > 0 ? careForTheRest : 1) / rest);
  if (total > 0) {
    // The heaviest stand for all: an artwork has far more colours than need be looked at one by one.
    const heaviest = crowd.toSorted((a, b) => b.weight - a.weight).slice(0, mostTargets - rest);
    const kept = heaviest.reduce((sum, one) => sum + one.weight, 0);
    for (const { rgb, weight } of heaviest) {
      targets.push([rgb[0], rgb[1], rgb[2]]);
      weights.push(((1 - careForTheRest) * weight) / kept);
    }
  }
  return { targets, weights };
}

function candidatesOf({ crowd = [], count }: FollowUpChoice, random: Random): Triple3[] {
  const wanted = Math.max(mostCandidates, 2 * count);
  const out = new Map<string, Triple3>();
  const add = (rgb: Triple): void => {
    const exact = rgb.map((v) => Math.round(255 * Math.min(1, Math.max(0, v))) / 255) as Triple3;
    out.set(exact.join(), exact);
  };
  crowd
    .toSorted((a, b) => b.weight - a.weight)
    .slice(0, wanted / 2)
    .forEach(({ rgb }) => {
      add(rgb);
    });
  for (let tries = 0; out.size < wanted && tries < 4 * wanted; tries += 1) add(anyColour(random));
  return [...out.values()];
}

/** All over the cube; one in three on a face, where a model must guess from one side only. */
function anyColour(random: Random): Triple3 {
  const rgb: Triple3 = [random.uniform(), random.uniform(), random.uniform()];
  if (random.integer(3) === 0) rgb[random.integer(3)] = random.integer(2);
  return rgb;
}

/** ΔE00 that a unit of the coordinate makes at this colour. */
function visible(lab: Triple, j: number): number {
  const moved: Triple3 = [lab[0], lab[1], lab[2]];
  moved[j] = moved[j]! + 0.5;
  return 2 * deltaE00(lab, moved);
}

interface Posterior {
  /** Weighted variance that a reading of this candidate would take off the targets. */
  gain(candidate: number): number;
  /** Goes on as if it had been read. */
  take(candidate: number): void;
}

/** One coordinate's posterior covariance of the targets with the candidates, kept up to date. */
function posterior(
  process: ChannelProcess,
  points: Float64Array,
  total: number,
  about: { targets: number; care: readonly number[]; noise: number },
): Posterior {
  const { targets, care } = about;
  const { kernel } = process.parameters;
  const { count } = process;
  const candidates = total - targets;
  // L⁻¹ k(x) of every point: what the patches already tell of it.
  const told = new Float64Array(total * count);
  const row = new Float64Array(count);
  for (let i = 0; i < total; i += 1) {
    covarianceRow(kernel, points, pointSize * i, process.points, count, row);
    solveLower(process.factor, count, row, told.subarray(i * count, (i + 1) * count));
  }
  const variance = new Float64Array(candidates);
  for (let c = 0; c < candidates; c += 1) {
    const at = targets + c;
    variance[c] = Math.max(
      1e-9,
      ownCovariance(kernel, points, pointSize * at) - dot(told, at * count, at * count, count),
    );
  }
  const cross = new Float64Array(targets * candidates);
  const line = new Float64Array(total);
  for (let t = 0; t < targets; t += 1) {
    covarianceRow(kernel, points, pointSize * t, points, total, line);
    for (let c = 0; c < candidates; c += 1) {
      cross[t * candidates + c] = line[targets + c]! - dot(told, t * count, (targets + c) * count, count);
    }
  }
  /** Of each candidate taken: its covariance with all candidates, over its own standard deviation. */
  const steps: Float64Array[] = [];
  return {
    gain(candidate) {
      let sum = 0;
      for (let t = 0; t < targets; t += 1) sum += care[t]! * cross[t * candidates + candidate]! ** 2;
      return sum / (variance[candidate]! + about.noise);
    },
    take(candidate) {
      const at = targets + candidate;
      covarianceRow(kernel, points, pointSize * at, points, total, line);
      const scale = 1 / Math.sqrt(variance[candidate]! + about.noise);
      const step = new Float64Array(candidates);
      for (let c = 0; c < candidates; c += 1) {
        let value = line[targets + c]! - dot(told, at * count, (targets + c) * count, count);
        for (const before of steps) value -= before[candidate]! * before[c]!;
        step[c] = value * scale;
      }
      for (let t = 0; t < targets; t += 1) {
        const shared = cross[t * candidates + candidate]! * scale;
        for (let c = 0; c < candidates; c += 1) {
          cross[t * candidates + c] = cross[t * candidates + c]! - shared * step[c]!;
        }
      }
      for (let c = 0; c < candidates; c += 1) variance[c] = Math.max(1e-9, variance[c]! - step[c]! ** 2);
      steps.push(step);
    },
  };
}

function dot(values: Float64Array, a: number, b: number, count: number): number {
  let sum = 0;
  for (let k = 0; k < count; k += 1) sum += values[a + k]! * values[b + k]!;
  return sum;
}
