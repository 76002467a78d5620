import { createRandom, type Random } from '#craft/numerics';
import { Problem } from '#craft/problem';
import { checkStep, couponCounts } from './check-coupons.js';
import { exchange } from './exchange.js';
import { activationPrior, logDose, pressureExponentPrior } from './kinetics.js';
import type { FactorKind, PressLimits, PressStep } from './types.js';

export interface LadderRequest {
  readonly coupons: number;
  /** One or two. Each range within the limits; the limits' own where it is not given. */
  readonly factors: readonly {
    readonly kind: FactorKind;
    readonly range?: readonly [low: number, high: number];
  }[];
  /** What stays as it is, for the factors that do not vary. */
  readonly start: PressStep;
  /** What the blank's maker allows. */
  readonly limits: PressLimits;
  readonly seed: number;
}

export interface PlannedCoupon {
  readonly step: PressStep;
  /** −1 the lowest, 0 the middle, 1 the highest level of each factor: even in °C, in ln seconds, in ln bar. */
  readonly coded: readonly number[];
  /** Coupons of one number are pressed alike. */
  readonly alike: number;
}

export interface LadderPlan {
  readonly kind: 'ladder' | 'central composite' | 'D-optimal';
  /** In the order to press. */
  readonly coupons: readonly PlannedCoupon[];
  readonly factors: readonly FactorKind[];
  readonly temperatureChanges: number;
  readonly words: string;
}

/** Narrower than this, steps differ less than a press repeats itself: a rule of thumb of ours. */
const leastSpread = { time: 1.5, temperature: 8, pressure: 1.5 } as const;
const units = { time: 's', temperature: '°C', pressure: 'bar' } as const;

/**
 * Which coupons to press. One factor: a ladder with its middle repeated. Two: from ten coupons a central composite plan
 * within the ranges (Box & Wilson, J. R. Stat. Soc. B 13, 1951; axial points at the ends, corners at 1/√2 of them) with its
 * centre repeated, else a plan that is D-optimal for the dose (`dosePlan`).
 * @throws Problem `press.invalid` or `press.unsafe` when no such plan can work, saying why
 */
export function planLadder(request: LadderRequest): LadderPlan {
  const { coupons: count, factors, limits } = request;
  if (!Number.isInteger(count) || count < couponCounts.fewest || count > couponCounts.most)
    refuse(`A ladder has 4 to 16 coupons, not ${count}.`, 'Choose how many blanks or scraps to spend.');
  if (factors.length === 0 || factors.length > 2)
    refuse('A ladder varies one or two of time, temperature and pressure.', 'Choose one or two of them.');
  if (factors.length === 2 && factors[0]!.kind === factors[1]!.kind)
    refuse('The two things to vary are the same.', 'Choose two different ones.');
  const ranges = factors.map(({ kind, range }) => rangeOf(kind, range, limits));
  checkStart(request);

  const random = createRandom(request.seed);
  let kind: LadderPlan['kind'] = 'ladder';
  let coded: number[][];
  if (factors.length === 1) coded = oneFactor(count);
  else if (count >= 10) {
    kind = 'central composite';
    coded = composite(count);
  } else {
    kind = 'D-optimal';
    coded = dosePlan(request, ranges);
  }
  const planned = coded.map((at) => ({ coded: at, step: stepOf(request, ranges, at) }));
  for (const { step } of planned) checkStep(step, 'A coupon of this plan');
  const keys = [...new Set(planned.map(({ step }) => keyOf(step)))];
  const distinctWanted = new Set(coded.map((at) => at.join())).size;
  if (keys.length < distinctWanted)
    refuse(
      `Within this range ${count} coupons cannot all differ: whole seconds, degrees and tenths of a bar are too coarse.`,
      'Widen the range or take fewer coupons.',
    );
  const numbered = planned.map((coupon) => ({ ...coupon, alike: keys.indexOf(keyOf(coupon.step)) }));
  const ordered = pressOrder(numbered, random);
  const temperatures = ordered.map(({ step }) => step.platenC);
  const temperatureChanges = temperatures.filter((c, i) => i > 0 && c !== temperatures[i - 1]).length;
  const repeated = count - keys.length;
  return {
    kind,
    coupons: ordered,
    factors: factors.map((factor) => factor.kind),
    temperatureChanges,
    words: `${count} coupons at ${keys.length} settings, ${repeated} of them repeated to see how well the press repeats itself; ${
      temperatureChanges === 0
        ? 'one temperature throughout'
        : `${temperatureChanges} changes of temperature, always upwards: wait until the platen has settled`
    }. The maker’s instructions come first.`,
  };
}

const keyOf = (s: PressStep): string => `${s.platenC} ${s.dwellSeconds} ${s.pressureBar ?? ''}`;

function rangeOf(
  kind: FactorKind,
  wanted: readonly [number, number] | undefined,
  limits: PressLimits,
): readonly [number, number] {
  const bounds = { time: limits.dwellSeconds, temperature: limits.platenC, pressure: limits.pressureBar }[
    kind
  ];
  if (bounds === undefined)
    refuse(
      'Nobody said which pressures the blank bears.',
      'Give the lowest and highest pressure, or vary time.',
    );
  const [low, high] = wanted ?? bounds;
  if (!(Number.isFinite(low) && Number.isFinite(high) && low > 0 && low < high))
    refuse(`From ${low} to ${high} ${units[kind]} is no range.`, 'Give a lower and a higher value above 0.');
  if (low < bounds[0] || high > bounds[1])
    refuse(
      `From ${low} to ${high} ${units[kind]} leaves what the blank’s maker allows (${bounds[0]} to ${bounds[1]} ${units[kind]}).`,
      'Stay within the maker’s range.',
    );
  const spread = kind === 'temperature' ? high - low : high / low;
  if (spread < leastSpread[kind])
    refuse(
      kind === 'temperature'
        ? `${high - low} °C is too narrow a range: a press differs by nearly as much from piece to piece.`
        : `From ${low} to ${high} ${units[kind]} is too narrow a range to see a difference.`,
      kind === 'temperature'
        ? 'Take at least 8 °C.'
        : 'Let the highest be at least one and a half times the lowest.',
    );
  return [low, high];
}

/** What stays fixed must be allowed too. */
function checkStart({ start, limits, factors }: LadderRequest): void {
  const varied = new Set(factors.map(({ kind }) => kind));
  const fixed: [FactorKind, number | undefined, readonly [number, number] | undefined][] = [
    ['time', start.dwellSeconds, limits.dwellSeconds],
    ['temperature', start.platenC, limits.platenC],
    ['pressure', start.pressureBar, limits.pressureBar],
  ];
  for (const [kind, value, bounds] of fixed) {
    if (varied.has(kind) || value === undefined || bounds === undefined) continue;
    if (!(value >= bounds[0] && value <= bounds[1]))
      refuse(
        `${value} ${units[kind]} is not what the blank’s maker allows (${bounds[0]} to ${bounds[1]} ${units[kind]}).`,
        'Start from a recipe within the maker’s range.',
      );
  }
}

function stepOf(
  { factors, start }: LadderRequest,
  ranges: readonly (readonly [number, number])[],
  coded: readonly number[],
): PressStep {
  let step: PressStep = start;
  factors.forEach(({ kind }, f) => {
    const share = (coded[f]! + 1) / 2;
    const [low, high] = ranges[f]!;
    const even = low + share * (high - low);
    const inRatios = low * (high / low) ** share;
    if (kind === 'temperature') step = { ...step, platenC: Math.round(even) };
    else if (kind === 'time') step = { ...step, dwellSeconds: Math.round(inRatios) };
    else step = { ...step, pressureBar: Math.round(inRatios * 10) / 10 };
  });
  return step;
}

/** Even steps with the middle repeated once, twice from nine coupons, three times from thirteen. */
function oneFactor(count: number): number[][] {
  let repeats = count >= 13 ? 3 : count >= 9 ? 2 : 1;
  // An odd number of levels has a middle one to repeat.
  if ((count - repeats) % 2 === 0) repeats += repeats > 1 ? -1 : 1;
  let levels = count - repeats;
  if (levels < 3) [levels, repeats] = [3, count - 3];
  const coded = Array.from({ length: levels }, (_, i) => [(2 * i) / (levels - 1) - 1]);
  return [...coded, ...Array.from({ length: repeats }, () => [0])];
}

function composite(count: number): number[][] {
  const c = Math.SQRT1_2;
  const outer = [
    [-c, -c],
    [-c, c],
    [c, -c],
    [c, c],
    [-1, 0],
    [1, 0],
    [0, -1],
    [0, 1],
  ];
  // The centre twice to four times; what is left repeats the corners.
  const centres = Math.min(4, count - 8);
  const more = Array.from({ length: count - 8 - centres }, (_, i) => outer[i % 4]!);
  return [...outer, ...Array.from({ length: centres }, () => [0, 0]), ...more];
}

/** Terms in dose and in the other factor that so many coupons can tell; one coupon at least is left over. */
function doseTerms(count: number, dose: number, other: number): number[] {
  const powers = count >= 7 ? 3 : count >= 6 ? 2 : 1;
  return [...Array.from({ length: powers + 1 }, (_, k) => dose ** k), other];
}

/** Beyond the doses of the first factor alone, by this much, everything is plainly too little or too much. */
const furthestDose = 1.1;

/**
 * Few coupons in two factors. What they do is mostly told by the dose, so the plan is D-optimal (see `exchange`) for powers
 * of the dose, as it is assumed before anything is pressed, and a shift with the other factor: hot coupons are pressed
 * shorter and cool ones longer, and none is spent where both are extreme the same way. The middle is there twice.
 * A plan for a full quadratic surface in the factors themselves found the window less surely on simulated presses.
 */
function dosePlan(request: LadderRequest, ranges: readonly (readonly [number, number])[]): number[][] {
  const { coupons: count, factors, seed, start } = request;
  const main = mainFactors.map((kind) => factors.findIndex((f) => f.kind === kind)).find((f) => f >= 0)!;
  const middle = stepOf(request, ranges, [0, 0]);
  const law = {
    activationKJPerMol: activationPrior.medianKJPerMol,
    pressureExponent: pressureExponentPrior.mean,
    referenceC: start.platenC,
    referencePressureBar: start.pressureBar ?? 1,
  };
  const doseAt = (coded: readonly number[]): number =>
    logDose(stepOf(request, ranges, coded), law) - logDose(middle, law);
  const along = (at: number, other: number): number[] => (main === 0 ? [at, other] : [other, at]);
  const half = 0.5 * (doseAt(along(1, 0)) - doseAt(along(-1, 0)));
  const rowOf = (coded: readonly number[]): number[] =>
    doseTerms(count, doseAt(coded) / half, coded[1 - main]!);
  const levels = Array.from({ length: 7 }, (_, i) => i / 3 - 1);
  const candidates = [-1, 0, 1]
    .flatMap((other) => levels.map((at) => along(at, other)))
    .filter((coded) => Math.abs(doseAt(coded)) <= furthestDose * half);
  const centre = [0, 0];
  const chosen = exchange(candidates.map(rowOf), count - 2, seed, [rowOf(centre), rowOf(centre)]);
  return [...chosen.map((i) => candidates[i]!), centre, centre];
}

/** Which factor makes most of the dose. */
const mainFactors: readonly FactorKind[] = ['time', 'temperature', 'pressure'];

/** By temperature from cool to hot (heating is quicker than cooling), within one temperature by chance. */
function pressOrder<T extends { readonly step: PressStep }>(coupons: readonly T[], random: Random): T[] {
  return random.shuffle(coupons.slice()).sort((a, b) => a.step.platenC - b.step.platenC);
}

function refuse(message: string, remedy: string): never {
  throw new Problem('press.invalid', message, { remedy });
}
