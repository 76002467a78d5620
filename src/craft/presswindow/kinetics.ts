import { type DoseKinetics, doseRate, doseSeconds, priorKinetics } from '#craft/heat';
import type { PressStep } from './types.js';

/**
 * Before any coupon is pressed at two temperatures: what `heat` assumes too (`priorKinetics`), log-normal, within bounds
 * that any transfer keeps.
 */
export const activationPrior = {
  medianKJPerMol: priorKinetics.activationKJPerMol,
  sdLog: Math.log(priorKinetics.spread),
  lowKJPerMol: 15,
  highKJPerMol: 300,
} as const;

/**
 * Dose goes as pressure to this power. Nothing published was found: contact improves with pressure, by less than in
 * proportion, so a small positive power is guessed and left wide.
 */
export const pressureExponentPrior = { mean: 0.2, sd: 0.3 } as const;

/** How the dye's place warms up after the press closes: towards the platen's temperature, first order. */
export interface WarmUp {
  readonly timeConstantSeconds: number;
  readonly startC: number;
}

export interface DoseLaw {
  readonly activationKJPerMol: number;
  readonly pressureExponent: number;
  readonly referenceC: number;
  readonly referencePressureBar: number;
  readonly warmUp?: WarmUp;
}

/** ln of the equivalent seconds at the reference temperature and pressure. */
export function logDose(step: PressStep, law: DoseLaw): number {
  const kinetics: DoseKinetics = law;
  const seconds = law.warmUp
    ? doseSeconds(warmingTrace(step, law.warmUp), kinetics)
    : step.dwellSeconds * doseRate(step.platenC, kinetics);
  const pressure =
    step.pressureBar === undefined
      ? 0
      : law.pressureExponent * Math.log(step.pressureBar / law.referencePressureBar);
  return Math.log(seconds) + pressure;
}

function warmingTrace(
  { platenC, dwellSeconds }: PressStep,
  { timeConstantSeconds, startC }: WarmUp,
): { seconds: number[]; celsius: number[] } {
  // Samples crowd where the temperature still moves.
  const seconds = Array.from({ length: 33 }, (_, i) => dwellSeconds * (i / 32) ** 2);
  const celsius = seconds.map((s) => platenC - (platenC - startC) * Math.exp(-s / timeConstantSeconds));
  return { seconds, celsius };
}

/** Time at which a step's temperature and pressure give a dose; found by bisection in ln t. */
export function secondsForLogDose(
  wanted: number,
  at: { readonly platenC: number; readonly pressureBar?: number },
  law: DoseLaw,
): number {
  const of = (logSeconds: number): number => logDose({ ...at, dwellSeconds: Math.exp(logSeconds) }, law);
  if (!law.warmUp) return Math.exp(wanted - of(0));
  let [low, high] = [-5, 12];
  for (let i = 0; i < 60; i += 1) {
    const middle = (low + high) / 2;
    if (of(middle) < wanted) low = middle;
    else high = middle;
  }
  return Math.exp((low + high) / 2);
}

/** Temperature at which a step's time and pressure give a dose: bisection between 100 and 300 °C, NaN outside. */
export function platenForLogDose(
  wanted: number,
  at: { readonly dwellSeconds: number; readonly pressureBar?: number },
  law: DoseLaw,
): number {
  const of = (platenC: number): number => logDose({ ...at, platenC }, law);
  let [low, high] = [100, 300];
  if (of(low) > wanted || of(high) < wanted) return Number.NaN;
  for (let i = 0; i < 50; i += 1) {
    const middle = (low + high) / 2;
    if (of(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
