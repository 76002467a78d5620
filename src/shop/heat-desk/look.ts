import type { Blank, HeatLook } from '#contract';
import {
  courseBand,
  doseWithin,
  type FittedContacts,
  firstReaches,
  peak,
  pieceEnergy,
  platenErrorCost,
  platenSag,
  pressDose,
  priorKinetics,
  reachesAt,
  runHeat,
  sampleRun,
  secondsAbove,
  spanOf,
  touchThresholds,
  usualSpreads,
  valueAt,
  withDwell,
  withFactors,
} from '#craft/heat';
import { drawnTimes } from './drawn-times.js';
import { dryingOf } from './drying-of.js';
import { estimateOf } from './estimate.js';
import type { PressedRun, PressedRunRequest } from './pressed-run.js';
import { shockOf } from './shock-of.js';
import type { Body } from './usual-body.js';

export interface LookRequest {
  readonly blank: Blank;
  readonly body: Body;
  readonly platenC: number;
  readonly dwellSeconds: number;
  /** The case asked for, or with other times. */
  readonly make: (
    times?: Pick<PressedRunRequest, 'prePressSeconds' | 'coolSeconds'> & { readonly dwellSeconds?: number },
  ) => PressedRun;
  /** The blank's own recipe on the press it is meant for; null when that is what is asked. */
  readonly byRecipe: PressedRun | null;
  /** How well the platen's true temperature is known, standard deviation. */
  readonly platenSdK: number;
  readonly fitted: FittedContacts;
}

export interface Looked extends Pick<HeatLook, 'seconds' | 'courses' | 'phases' | 'facts'> {
  readonly pressed: PressedRun;
  /** Within 10 K of the platen, were the press kept closed; null: not in three times as long. */
  readonly wouldArriveSeconds: number | null;
  /** More than one in twenty of the worlds do not arrive in the time looked on. */
  readonly mayNeverArrive: boolean;
  /** Dose over the recipe's, and the time that would give the recipe's; null when the recipe itself is asked. */
  readonly besideRecipe: { readonly share: number; readonly seconds: number | null } | null;
}

/** One seed for every look: the same question has the same answer. */
export const lookSeed = 20_260_301;
export const usualKinetics = {
  activationKJPerMol: priorKinetics.activationKJPerMol,
  referenceC: priorKinetics.referenceC,
};
const followed = ['dye', 'middle', 'back'] as const;
/** How near the platen's temperature counts as arrived. */
const arrivedWithinK = 10;

/**
 * The case asked for, the worlds that might be about it, and what follows from them.
 * @throws Problem `press.invalid`, `press.unsafe`
 */
export function lookAt(request: LookRequest): Looked {
  const { body, platenC, dwellSeconds, fitted } = request;
  const pressed = request.make();
  const { run, pressPhase } = pressed;
  const about = {
    spreads: { ...usualSpreads, platenK: request.platenSdK },
    fitted,
    own: { thickness: { blank: body.thicknessLog } },
    seed: lookSeed,
  };
  const times = drawnTimes(run);
  const { central, samples } = sampleRun({ ...about, run, kinetics: usualKinetics }, (result, world) => ({
    courses: followed.map((probe) => alongTimes(times, result.seconds, result.probes[probe]!)),
    platen: result.topPlatenC === null ? null : alongTimes(times, result.seconds, result.topPlatenC),
    sagK: platenSag(result, 'top', platenC + world.platenShiftK).deepestK,
    peakC: peak(result, 'dye')!.celsius,
    dose: doseWithin(result, pressed, world.kinetics).dose.at(-1)!,
    phases: result.phases,
    energy: pieceEnergy(result, pressed.areaCm2),
  }));
  const courses = followed.map((name, k) => {
    const [low, high] = courseBand(samples.map((sample) => sample.courses[k]!));
    return { name, celsius: tidy(central.courses[k]!), low: tidy(low), high: tidy(high) };
  });
  const bakes = central.phases.find(({ name }) => name === pressPhase)!;
  const air = times.map((at) => (at <= bakes.endSeconds ? platenC : run.roomC));
  const platen = { name: 'platen', celsius: tidy(central.platen ?? air), low: null, high: null };

  const longest = Math.min(3600, Math.max(3 * dwellSeconds, dwellSeconds + 60));
  const closed = request.make({ dwellSeconds: longest, coolSeconds: 0 });
  const arrivals = sampleRun({ ...about, run: closed.run }, (result, world) =>
    reachesAt(result, 'dye', platenC + world.platenShiftK - arrivedWithinK, pressPhase),
  );
  const arrives =
    arrivals.central === null
      ? null
      : estimateOf(
          arrivals.central,
          arrivals.samples.map((seconds) => seconds ?? longest),
        );
  const never = arrivals.samples.filter((seconds) => seconds === null).length;

  const contacts = Object.fromEntries(Object.entries(fitted).map(([joint, { factor }]) => [joint, factor]));
  const best = { ...pressed, run: withFactors(run, { contacts }) };
  const cost = platenErrorCost(best, usualKinetics, 5);
  return {
    pressed,
    seconds: tidy(times),
    courses: [courses[0]!, platen, ...courses.slice(1)],
    phases: central.phases.map(({ name, startSeconds, endSeconds }) => ({
      name,
      fromSeconds: startSeconds,
      toSeconds: endSeconds,
    })),
    facts: {
      arrivesSeconds: arrives !== null && arrives.value <= dwellSeconds ? arrives : null,
      dyePeakC: estimateOf(
        central.peakC,
        samples.map(({ peakC }) => peakC),
      ),
      doseSeconds: estimateOf(
        central.dose,
        samples.map(({ dose }) => dose),
      ),
      platenSagK: pressed.kind === 'oven' ? 0 : central.sagK,
      fiveCoolerSeconds: cost.secondsToAdd,
      fiveHotterSeconds: cost.secondsToTakeAway,
      touchableAfterSeconds: touchableAfter(request),
      touchC: touchThresholds.minutesC,
      pieceWh: central.energy.intoStackWh + central.energy.lostWh * pressed.wholePlatenRatio,
      dryingSeconds: dryingOf(request, about),
      shockK: shockOf(pressed),
    },
    wouldArriveSeconds: arrives?.value ?? null,
    mayNeverArrive: never > arrivals.samples.length / 20,
    besideRecipe: besideRecipe(request.byRecipe, best, central.dose, contacts),
  };
}

function besideRecipe(
  byRecipe: PressedRun | null,
  pressed: PressedRun,
  dose: number,
  contacts: Readonly<Record<string, number>>,
): Looked['besideRecipe'] {
  if (byRecipe === null) return null;
  const usual = { ...byRecipe, run: withFactors(byRecipe.run, { contacts }) };
  const wanted = pressDose(usual, usualKinetics).dose.at(-1)!;
  const longer = pressDose(withDwell(pressed, 3600), usualKinetics);
  return { share: dose / wanted, seconds: firstReaches(longer.seconds, longer.dose, wanted) };
}

/** Cooling is followed two hours for this question, whatever is drawn. */
function touchableAfter({ make }: LookRequest): number | null {
  const { run, pressPhase } = make({ coolSeconds: 7200 });
  const result = runHeat(run, { stepToleranceK: 0.05 });
  const since = spanOf(result, pressPhase).endSeconds;
  const each = ['dye', 'back'].map((probe) => secondsAbove(result, probe, touchThresholds.minutesC, since));
  return each.some((seconds) => seconds === null) ? null : Math.max(...each.map((seconds) => seconds!));
}

const alongTimes = (times: readonly number[], seconds: Float64Array, celsius: Float64Array): Float64Array =>
  Float64Array.from(times, (at) => valueAt(seconds, celsius, at));

/** Hundredths are finer than anything here is known. */
const tidy = (values: ArrayLike<number>): number[] => Array.from(values, (v) => Math.round(v * 100) / 100);
