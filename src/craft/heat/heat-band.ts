import { type FittedContacts, quantile, type Spreads } from './sample-factors.js';
import { sampleRun } from './sample-run.js';
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
  const points = Math.max(2, request.points ?? 121);
  const end = run.phases.reduce((sum, phase) => sum + phase.seconds, 0);
  const seconds = Float64Array.from({ length: points }, (_, i) => (end * i) / (points - 1));
  const { central, samples } = sampleRun(request, (result) => {
    const celsius = result.probes[probe]!;
    return {
      celsius: seconds.map((at) => valueAt(result.seconds, celsius, at)),
      reaches:
        request.reachesC === undefined
          ? Number.POSITIVE_INFINITY
          : (firstReaches(result.seconds, celsius, request.reachesC) ?? Number.POSITIVE_INFINITY),
    };
  });
  const [lowC, highC] = courseBand(samples.map(({ celsius }) => celsius));
  const reach = samples.map(({ reaches }) => reaches).sort((a, b) => a - b);
  const finite = (value: number): number | null => (Number.isFinite(value) ? value : null);
  return {
    seconds,
    centralC: central.celsius,
    lowC,
    highC,
    reaches:
      request.reachesC === undefined
        ? null
        : {
            centralSeconds: finite(central.reaches),
            earlySeconds: finite(quantile(reach, 0.05)),
            lateSeconds: finite(quantile(reach, 0.95)),
          },
  };
}

/** Between what nine in ten of the courses lie, point by point. */
export function courseBand(
  courses: readonly Float64Array[],
): readonly [low: Float64Array, high: Float64Array] {
  const across = (share: number): Float64Array =>
    Float64Array.from(courses[0]!, (_, i) =>
      quantile(Float64Array.from(courses, (course) => course[i]!).sort(), share),
    );
  return [across(0.05), across(0.95)];
}
