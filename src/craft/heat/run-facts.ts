import { firstReaches } from './series.js';
import type { HeatResult, StackProfile } from './types.js';

/** Seconds from the start of a phase until the probe reaches a temperature; null if it does not within it. */
export function reachesAt(result: HeatResult, probe: string, celsius: number, phase: string): number | null {
  const span = spanOf(result, phase);
  const seconds = result.seconds.subarray(span.first, span.last + 1);
  const at = firstReaches(seconds, result.probes[probe]!.subarray(span.first, span.last + 1), celsius);
  return at === null ? null : at - span.startSeconds;
}

/** The hottest the probe gets, and when (seconds of the run); null if its layer never lies there. */
export function peak(
  result: Pick<HeatResult, 'seconds' | 'probes'>,
  probe: string,
): { readonly celsius: number; readonly seconds: number } | null {
  let found: { celsius: number; seconds: number } | null = null;
  result.probes[probe]!.forEach((celsius, i) => {
    if (celsius > (found?.celsius ?? Number.NEGATIVE_INFINITY))
      found = { celsius, seconds: result.seconds[i]! };
  });
  return found;
}

/** How far a platen sinks below its set temperature, and how long after a moment it is back within a tolerance. */
export function platenSag(
  result: HeatResult,
  side: 'top' | 'bottom',
  setC: number,
  toleranceK = 2,
): { readonly deepestK: number; readonly backSeconds: number | null } {
  const celsius = side === 'top' ? result.topPlatenC : result.bottomPlatenC;
  if (celsius === null) return { deepestK: 0, backSeconds: 0 };
  const deepestK = celsius.reduce((most, value) => Math.max(most, setC - value), 0);
  for (let i = celsius.length - 1; i >= 0; i -= 1)
    if (setC - celsius[i]! > toleranceK)
      return { deepestK, backSeconds: i === celsius.length - 1 ? null : result.seconds[i + 1]! };
  return { deepestK, backSeconds: 0 };
}

/**
 * Within one layer: how far its coldest or hottest face is from its mean, K. Bounds the shock: annealed glass cracks at
 * about 40 K of it (suppliers' pages).
 */
export function shockK(profile: StackProfile, layer: string): number {
  const found = profile.layers.find((candidate) => candidate.id === layer);
  if (found === undefined) return 0;
  const { depthMm, celsius } = found;
  let area = 0;
  for (let i = 1; i < depthMm.length; i += 1)
    area += ((celsius[i]! + celsius[i - 1]!) / 2) * (depthMm[i]! - depthMm[i - 1]!);
  const mean = area / (depthMm.at(-1)! - depthMm[0]!);
  return Math.max(Math.abs(celsius[0]! - mean), Math.abs(celsius.at(-1)! - mean));
}

export function spanOf(result: HeatResult, phase: string): HeatResult['phases'][number] {
  const span = result.phases.find((candidate) => candidate.name === phase);
  if (span === undefined) throw new RangeError(`no phase ${phase}`);
  return span;
}
