import { runHeat, shockK, spanOf } from '#craft/heat';
import type { PressedRun } from './pressed-run.js';

/** How far a face of the blank runs ahead of its mean at most, while it heats and while it first cools, K. */
export function shockOf({ run, pressPhase }: PressedRun): number {
  const started = runHeat(run, { stepToleranceK: 1 });
  const { startSeconds, endSeconds } = spanOf(started, pressPhase);
  const end = started.seconds.at(-1)!;
  const after = (from: number, to: number): number[] =>
    Array.from(
      { length: 16 },
      (_, i) => from + Math.min(0.5, (to - from) / 2) * (2 * (to - from)) ** (i / 15),
    ).filter((at) => at > from && at <= to);
  const profilesAtSeconds = [...after(startSeconds, endSeconds), ...after(endSeconds, end)];
  const result = runHeat(run, { profilesAtSeconds, stepToleranceK: 0.05 });
  return result.profiles.reduce((most, profile) => Math.max(most, shockK(profile, 'blank')), 0);
}
