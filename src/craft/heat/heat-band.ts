import { createRandom } from '#craft/numerics';
import { withFactors } from './factors.js';
import { boundWithError } from './press-case.js';
import { runHeat } from './run-heat.js';
import {
  centralFactors,
  type FittedContacts,
  quantile,
  type Spreads,
  sampleFactors,
  usualSpreads,
} from './sample-factors.js';
import { firstReaches, valueAt } from './series.js';
import type { HeatRun } from './types.js';

export interface HeatBandRequest {
  readonly run: HeatRun;
  readonly probe: string;
  readonly spreads?: Partial<Spreads>;
  readonly fitted?: FittedContacts;
  /** Times of the answer, evenly over the run. Default 121. */
  readonly points?: number;
  /** Also: when is this first reached? */
  readonly reachesC?: number;
  /** Default 40. */
  readonly samples?: number;
  readonly seed: number;
}

/** What the probe may feel: the best guess, and between what nine in ten of the samples lie. NaN where no layer lies. */
export interface HeatBand {
  readonly seconds: Float64Array;
  readonly centralC: Float64Array;
  readonly lowC: Float64Array;
  readonly highC: Float64Array;
  /** Seconds of the run at which `reachesC` is first reached; null where it is not. */
  readonly reaches: {
    readonly centralSeconds: number | null;
    readonly earlySeconds: number | null;
    readonly lateSeconds: number | null;
  } | null;
}

/** A run's temperature with what is not known about joints, materials and the platen, sampled. */
export function heatBand(request: HeatBandRequest): HeatBand {
  const { run, probe } = request;
  const spreads = { ...usualSpreads, ...request.spreads };
  const fitted = request.fitted ?? {};
  const points = Math.max(2, request.points ?? 121);
  const end = run.phases.reduce((sum, phase) => sum + phase.seconds, 0);
  const seconds = Float64Array.from({ length: points }, (_, i) => (end * i) / (points - 1));
  const reach: number[] = [];
  const reached = (times: Float64Array, celsius: Float64Array): number =>
    request.reachesC === undefined
      ? Number.POSITIVE_INFINITY
      : (firstReaches(times, celsius, request.reachesC) ?? Number.POSITIVE_INFINITY);
  const follow = (one: HeatRun, stepToleranceK: number, shiftK: number): [Float64Array, number] => {
    const result = runHeat(one, { stepToleranceK, boundC: boundWithError(shiftK) });
    const celsius = result.probes[probe]!;
    return [seconds.map((at) => valueAt(result.seconds, celsius, at)), reached(result.seconds, celsius)];
  };

  const [centralC, centralReach] = follow(withFactors(run, centralFactors(fitted)), 0.01, 0);
  const random = createRandom(request.seed);
  const sampled = Array.from({ length: Math.max(1, request.samples ?? 40) }, () => {
    const factors = sampleFactors([run], spreads, fitted, random);
    const [celsius, at] = follow(withFactors(run, factors), 0.1, factors.platenShiftK ?? 0);
    reach.push(at);
    return celsius;
  });
  const across = (share: number): Float64Array =>
    seconds.map((_, i) => {
      const values = Float64Array.from(sampled, (celsius) => celsius[i]!).sort();
      return quantile(values, share);
    });
  reach.sort((a, b) => a - b);
  const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
  return {
    seconds,
    centralC,
    lowC: across(0.05),
    highC: across(0.95),
    reaches:
      request.reachesC === undefined
        ? null
        : {
            centralSeconds: finite(centralReach),
            earlySeconds: finite(quantile(reach, 0.05)),
            lateSeconds: finite(quantile(reach, 0.95)),
          },
  };
}
