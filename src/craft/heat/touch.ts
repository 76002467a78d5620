import type { HeatResult } from './types.js';

/**
 * When a surface burns, °C. ISO 13732-1 defines the thresholds by material and time of contact; these figures are from
 * memory: bare metal at 65 to 70 burns in about a second, 48 is the bound for minutes and 43 for long holding of any
 * material. Metal is the worst, so its threshold is used for all; coated and thin pieces differ.
 */
export const touchThresholds = {
  briefC: 65,
  minutesC: 48,
  longC: 43,
  basis: 'From memory; ISO 13732-1 defines the thresholds by material and time of contact.',
} as const;

/**
 * Seconds from `sinceSeconds` until the followed temperature is last above a threshold; 0 if it never is.
 * Null if it is still above at the end of the run: then let the run cool longer.
 */
export function secondsAbove(
  result: Pick<HeatResult, 'seconds' | 'probes'>,
  probe: string,
  thresholdC: number,
  sinceSeconds = 0,
): number | null {
  const { seconds } = result;
  const celsius = result.probes[probe]!;
  for (let i = celsius.length - 1; i >= 0; i -= 1) {
    if (!(celsius[i]! > thresholdC)) continue;
    if (i === celsius.length - 1) return null;
    const [above, below] = [celsius[i]!, celsius[i + 1]!];
    const share = Number.isNaN(below) || above === below ? 1 : (above - thresholdC) / (above - below);
    return Math.max(0, seconds[i]! + Math.min(1, share) * (seconds[i + 1]! - seconds[i]!) - sinceSeconds);
  }
  return 0;
}
