import { createRandom } from '#craft/numerics';
import { type DoseKinetics, priorKinetics } from './dose.js';
import { withFactors } from './factors.js';
import { boundWithError } from './press-case.js';
import { runHeat } from './run-heat.js';
import {
  centralFactors,
  type FittedContacts,
  type OwnSpreads,
  type Spreads,
  sampleFactors,
  sampleKinetics,
  usualSpreads,
  withOwn,
} from './sample-factors.js';
import type { HeatResult, HeatRun } from './types.js';

export interface SampleRequest {
  readonly run: HeatRun;
  readonly spreads?: Partial<Spreads>;
  readonly fitted?: FittedContacts;
  readonly own?: OwnSpreads;
  /** Drawn from world to world when given; the prior's central figures otherwise. */
  readonly kinetics?: DoseKinetics;
  /** Default 40. */
  readonly samples?: number;
  readonly seed: number;
}

/** One world that might be, as a measure of its run needs it. */
export interface World {
  /** True platen temperature above the one given, K. */
  readonly platenShiftK: number;
  readonly kinetics: DoseKinetics;
}

/**
 * One measure of a run: of the best guess, and of worlds drawn about it.
 * @throws Problem `press.invalid`, `press.unsafe`
 */
export function sampleRun<T>(
  request: SampleRequest,
  measure: (result: HeatResult, world: World) => T,
): { readonly central: T; readonly samples: readonly T[] } {
  const { run } = request;
  const spreads = { ...usualSpreads, ...request.spreads };
  const fitted = request.fitted ?? {};
  const kinetics = request.kinetics ?? priorKinetics;
  const central = measure(runHeat(withFactors(run, centralFactors(fitted))), { platenShiftK: 0, kinetics });
  const random = createRandom(request.seed);
  const samples = Array.from({ length: Math.max(1, request.samples ?? 40) }, () => {
    const shared = sampleFactors([run], spreads, fitted, random);
    const factors = withOwn(shared, request.own ?? {}, random);
    const platenShiftK = factors.platenShiftK ?? 0;
    const drawn = request.kinetics === undefined ? kinetics : sampleKinetics(kinetics, spreads, random);
    const options = { stepToleranceK: 0.1, boundC: boundWithError(platenShiftK) };
    return measure(runHeat(withFactors(run, factors), options), { platenShiftK, kinetics: drawn });
  });
  return { central, samples };
}
