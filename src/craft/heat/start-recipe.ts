import { createRandom } from '#craft/numerics';
import { type DoseKinetics, priorKinetics } from './dose.js';
import { type RunFactors, withFactors } from './factors.js';
import { boundWithError, type PressCase, pressDose, withDwell } from './press-case.js';
import {
  centralFactors,
  type FittedContacts,
  logNormal,
  type OwnSpreads,
  quantile,
  type Spreads,
  sampleFactors,
  sampleKinetics,
  usualSpreads,
  withOwn,
} from './sample-factors.js';
import { firstReaches } from './series.js';

export interface StartRecipeRequest {
  /** A recipe that works, on this press. */
  readonly known: PressCase;
  /** The blank never pressed; the time of its press phase is what is sought. */
  readonly unknown: PressCase;
  readonly kinetics?: DoseKinetics;
  readonly spreads?: Partial<Spreads>;
  /** From `fitContacts`: joints it has learnt. */
  readonly fitted?: FittedContacts;
  /** What the two do not share. */
  readonly own?: { readonly known?: OwnSpreads; readonly unknown?: OwnSpreads };
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
    factors: { readonly known: RunFactors; readonly unknown: RunFactors },
    arrhenius: DoseKinetics,
    stepToleranceK: number,
    wantedFactor = 1,
  ): { wanted: number; dwell: number | null } => {
    const options = { stepToleranceK, boundC: boundWithError(factors.known.platenShiftK ?? 0) };
    const doseOf = (pressCase: PressCase, own: RunFactors) =>
      pressDose({ ...pressCase, run: withFactors(pressCase.run, own) }, arrhenius, options);
    const wanted = doseOf(request.known, factors.known).dose.at(-1)! * wantedFactor;
    const { seconds, dose } = doseOf(unknown, factors.unknown);
    return { wanted, dwell: firstReaches(seconds, dose, wanted) };
  };

  const fitted = request.fitted ?? {};
  const middle = centralFactors(fitted);
  const central = solve({ known: middle, unknown: middle }, kinetics, 0.02);

  const random = createRandom(request.seed);
  const runs = [request.known.run, request.unknown.run];
  const dwells = Array.from({ length: samples }, () => {
    const shared = sampleFactors(runs, spreads, fitted, random);
    const factors = {
      known: withOwn(shared, request.own?.known ?? {}, random),
      unknown: withOwn(shared, request.own?.unknown ?? {}, random),
    };
    const arrhenius = sampleKinetics(kinetics, spreads, random);
    const wantedFactor = logNormal(random, spreads.coatingLog);
    return solve(factors, arrhenius, 0.1, wantedFactor).dwell ?? Number.POSITIVE_INFINITY;
  }).sort((a, b) => a - b);
  const within = (share: number): number | null => {
    const value = dwells.length === 0 ? Number.NaN : quantile(dwells, share);
    return Number.isFinite(value) ? value : null;
  };
  return {
    dwellSeconds: central.dwell,
    lowSeconds: within(0.05),
    highSeconds: within(0.95),
    doseSeconds: central.wanted,
    kinetics,
    samples,
    notReachedShare: dwells.filter((dwell) => !Number.isFinite(dwell)).length / Math.max(1, samples),
    restsOn:
      'The dose of a recipe that works, carried over by a model of heat. A place to start, not a recipe: the maker’s instructions come first, and one piece tells more.',
  };
}
