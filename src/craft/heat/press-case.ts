import { Problem } from '#craft/problem';
import { safetyBoundC } from './check-run.js';
import { type DoseKinetics, doseCourse } from './dose.js';
import { spanOf } from './run-facts.js';
import { runHeat } from './run-heat.js';
import type { HeatOptions, HeatResult, HeatRun } from './types.js';

/** A run with the phase in which dye crosses over (paper on the blank, press closed) and the probe that feels it. */
export interface PressCase {
  readonly run: HeatRun;
  readonly pressPhase: string;
  readonly dyeProbe: string;
}

/** Dose gathered since the press phase began. Before and after it the paper is not held on: nothing is counted. */
export interface PressDose {
  /** Since the press closed. */
  readonly seconds: Float64Array;
  /** Equivalent seconds at the reference temperature so far. */
  readonly dose: Float64Array;
}

/** @throws Problem `press.invalid` when the case has no such phase or probe */
export function pressDose(
  pressCase: PressCase,
  kinetics: DoseKinetics,
  options: HeatOptions = {},
): PressDose {
  const { run } = pressCase;
  const at = phaseIndex(pressCase);
  // What comes after cannot change the dose.
  const result = runHeat({ ...run, phases: run.phases.slice(0, at + 1) }, options);
  return doseWithin(result, pressCase, kinetics);
}

/** The dose within the press phase of a run that was followed already. */
export function doseWithin(
  result: HeatResult,
  { pressPhase, dyeProbe }: Pick<PressCase, 'pressPhase' | 'dyeProbe'>,
  kinetics: DoseKinetics,
): PressDose {
  const span = spanOf(result, pressPhase);
  const seconds = result.seconds.slice(span.first, span.last + 1).map((second) => second - span.startSeconds);
  const celsius = result.probes[dyeProbe]!.subarray(span.first, span.last + 1);
  return { seconds, dose: doseCourse({ seconds, celsius }, kinetics) };
}

export function dwellOf(pressCase: PressCase): number {
  return pressCase.run.phases[phaseIndex(pressCase)]!.seconds;
}

export function withDwell(pressCase: PressCase, seconds: number): PressCase {
  const at = phaseIndex(pressCase);
  const phases = pressCase.run.phases.map((phase, i) => (i === at ? { ...phase, seconds } : phase));
  return { ...pressCase, run: { ...pressCase.run, phases } };
}

/**
 * Bound for runs with a platen some kelvin hotter than set: what happens if the thermometer is wrong may be asked,
 * though nobody may set it.
 */
export const boundWithError = (shiftK: number): number => safetyBoundC + Math.abs(shiftK);

function phaseIndex({ run, pressPhase, dyeProbe }: PressCase): number {
  if (!run.probes.some((probe) => probe.name === dyeProbe))
    throw new Problem('press.invalid', `No probe “${dyeProbe}” is followed in this run.`, {
      remedy: 'Name the probe that stands where the dye goes.',
    });
  const at = run.phases.findIndex((phase) => phase.name === pressPhase);
  if (at >= 0) return at;
  throw new Problem('press.invalid', `The run has no phase “${pressPhase}”.`, {
    remedy: 'Name the phase in which the press is closed on the paper.',
  });
}
