import { createRandom, type Random } from '#craft/numerics';
import { type DoseKinetics, priorKinetics } from './dose.js';
import { jointOf, type RunFactors, withFactors } from './factors.js';
import { boundWithError, type PressCase, pressDose, withDwell } from './press-case.js';
import { firstReaches } from './series.js';

/** Standard deviations of what is not known. Those of factors are of their natural logarithms: 0.1 is about 10 %. */
export interface Spreads {
  readonly contactsLog: number;
  readonly conductivityLog: number;
  readonly heatCapacityLog: number;
  /** The platen's true temperature about the one it shows; both cases are pressed on it. */
  readonly platenK: number;
  readonly activationLog: number;
  /** How much more or less dose one coating wants than another. */
  readonly coatingLog: number;
}

/** Judgements, not measurements, but for the activation energy's (see dose.ts). Fits replace them. */
export const usualSpreads: Spreads = {
  contactsLog: 0.5,
  conductivityLog: 0.15,
  heatCapacityLog: 0.05,
  platenK: 4,
  activationLog: Math.log(priorKinetics.spread),
  coatingLog: 0.2,
};

export interface StartRecipeRequest {
  /** A recipe that works, on this press. */
  readonly known: PressCase;
  /** The blank never pressed; the time of its press phase is what is sought. */
  readonly unknown: PressCase;
  readonly kinetics?: DoseKinetics;
  readonly spreads?: Partial<Spreads>;
  /** From `fitContacts`: joints it has learnt, as factors, with the spread that is left. */
  readonly fitted?: {
    readonly contacts: Readonly<Record<string, { readonly factor: number; readonly sdLog: number }>>;
  };
  /** Longest time worth considering. Default 900. */
  readonly longestSeconds?: number;
  /** Default 60. */
  readonly samples?: number;
  readonly seed: number;
}

export interface StartRecipe {
  /** Null when the dose is not reached within the longest time. */
  readonly dwellSeconds: number | null;
  /** Nine in ten of the samples lie between; the upper is null when some of them never arrive. */
  readonly lowSeconds: number | null;
  readonly highSeconds: number | null;
  /** Dose of the known recipe, equivalent seconds at the reference temperature. */
  readonly doseSeconds: number;
  readonly kinetics: DoseKinetics;
  readonly samples: number;
  readonly notReachedShare: number;
  readonly restsOn: string;
}

/**
 * The time that gives a blank never pressed the dose that a known one gets. What both share (press, joints of one name,
 * materials, activation energy) is drawn once for both, so errors that would spoil both alike cancel.
 */
export function startRecipe(request: StartRecipeRequest): StartRecipe {
  const spreads = { ...usualSpreads, ...request.spreads };
  const kinetics = request.kinetics ?? {
    activationKJPerMol: priorKinetics.activationKJPerMol,
    referenceC: priorKinetics.referenceC,
  };
  const samples = request.samples ?? 60;
  const unknown = withDwell(request.unknown, request.longestSeconds ?? 900);
  const solve = (
    factors: RunFactors,
    arrhenius: DoseKinetics,
    stepToleranceK: number,
    wantedFactor = 1,
  ): { wanted: number; dwell: number | null } => {
    const options = { stepToleranceK, boundC: boundWithError(factors.platenShiftK ?? 0) };
    const doseOf = (pressCase: PressCase) =>
      pressDose({ ...pressCase, run: withFactors(pressCase.run, factors) }, arrhenius, options);
    const wanted = doseOf(request.known).dose.at(-1)! * wantedFactor;
    const { seconds, dose } = doseOf(unknown);
    return { wanted, dwell: firstReaches(seconds, dose, wanted) };
  };

  const learnt = request.fitted?.contacts ?? {};
  const centre: RunFactors = {
    contacts: Object.fromEntries(Object.entries(learnt).map(([joint, { factor }]) => [joint, factor])),
  };
  const central = solve(centre, kinetics, 0.02);

  const random = createRandom(request.seed);
  const layers = [...request.known.run.layers, ...request.unknown.run.layers];
  const joints = [...new Set(layers.map(jointOf))];
  const materials = [...new Set(layers.map((layer) => layer.material.id))];
  const dwells: number[] = [];
  for (let i = 0; i < samples; i += 1) {
    const contacts = Object.fromEntries(
      joints.map((joint) => [
        joint,
        (learnt[joint]?.factor ?? 1) * logNormal(random, learnt[joint]?.sdLog ?? spreads.contactsLog),
      ]),
    );
    const each = (sd: number): Record<string, number> =>
      Object.fromEntries(materials.map((id) => [id, logNormal(random, sd)]));
    const factors: RunFactors = {
      contacts,
      conductivity: each(spreads.conductivityLog),
      heatCapacity: each(spreads.heatCapacityLog),
      platenShiftK: spreads.platenK * random.normal(),
    };
    const arrhenius = {
      ...kinetics,
      activationKJPerMol: kinetics.activationKJPerMol * logNormal(random, spreads.activationLog),
    };
    dwells.push(
      solve(factors, arrhenius, 0.1, logNormal(random, spreads.coatingLog)).dwell ?? Number.POSITIVE_INFINITY,
    );
  }
  dwells.sort((a, b) => a - b);
  const quantile = (share: number): number | null => {
    if (dwells.length === 0) return null;
    const value = dwells[Math.min(dwells.length - 1, Math.floor(share * dwells.length))]!;
    return Number.isFinite(value) ? value : null;
  };
  return {
    dwellSeconds: central.dwell,
    lowSeconds: quantile(0.05),
    highSeconds: quantile(0.95),
    doseSeconds: central.wanted,
    kinetics,
    samples,
    notReachedShare: dwells.filter((dwell) => !Number.isFinite(dwell)).length / Math.max(1, samples),
    restsOn:
      'The dose of a recipe that works, carried over by a model of heat. A place to start, not a recipe: the maker’s instructions come first, and one piece tells more.',
  };
}

const logNormal = (random: Random, sd: number): number => Math.exp(sd * random.normal());
