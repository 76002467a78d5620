import type { BlackAnswer, PressWindowFacts, WindowCourses, WindowFieldFacts } from '#contract';
import { type EvennessMap, evennessMap, wrapSides } from '#craft/evenness';
import { safetyBoundC } from '#craft/heat';
import {
  blackVerdict,
  type Coupon,
  fitLadder,
  isSure,
  type KeptFit,
  keptFit,
  type LadderFit,
  type MeasuredLab,
  type NextCoupon,
  nextCoupons,
  type PressLimits,
  type PressStep,
  pressWindow,
  type WindowPlace,
  windowCourses,
  windowField,
} from '#craft/presswindow';
import { type EvennessLight, labCells } from './evenness-cells.js';

/** What is worked out for the press bench in a thread of its own. Plain data in, plain data out. */

/** Everything a window is made from. */
export interface LadderQuestion {
  readonly coupons: readonly Coupon[];
  readonly place: WindowPlace;
  readonly limits: PressLimits;
  /** True less set temperature when the ladder was planned. */
  readonly offsetK: number;
}

/** Worlds are drawn by chance: the same coupons always draw the same ones. */
const seed = 1;
const remembered = 4;
const fits = new Map<string, LadderFit>();

function fitFor({ coupons }: LadderQuestion): LadderFit {
  const key = JSON.stringify(coupons);
  const found = fits.get(key) ?? fitLadder(coupons, { seed });
  fits.delete(key);
  fits.set(key, found);
  for (const oldest of fits.keys()) {
    if (fits.size <= remembered) break;
    fits.delete(oldest);
  }
  return found;
}

/** Errors: ladder.unusable, press.invalid, press.unsafe. */
export function answer(question: LadderQuestion): PressWindowFacts {
  const { place, limits, offsetK } = question;
  const found = fitFor(question);
  const window = pressWindow(found, place);
  const setOf = (platenC: number): number => Math.round(platenC - offsetK);
  const { isFitted, basis, ...kJPerMol } = found.activation;
  const { middleSdLog: _, pressureBar, ...recipe } = window.recipe;
  const setC = setOf(place.platenC);
  const pressed = pressureBar ?? null;
  return {
    platenC: place.platenC,
    setC,
    pressureBar: pressed,
    fromSeconds: window.fromSeconds,
    toSeconds: window.toSeconds,
    opens: window.opens,
    closes: window.closes,
    windowProbability: window.windowProbability,
    recipe: { ...recipe, setC, pressureBar: pressed },
    activation: { kJPerMol, isFitted, basis },
    isSure: isSure(window, found),
    next: nextCoupons(found, place, limits).map((next) => {
      const setC = setOf(next.step.platenC);
      return { step: { ...next.step }, setC, words: nextWords(next, setC) };
    }),
    remarks: [...window.remarks],
    words:
      setC === place.platenC
        ? window.words
        : `${window.words} Set the press to ${setC} °C for a true ${place.platenC} °C.`,
  };
}

function nextWords({ step, sdLogNow, sdLogThen }: NextCoupon, setC: number): string {
  // Nine in ten of a normal distribution lie within 1.645 standard deviations.
  const percent = (sdLog: number): string => `${(100 * Math.expm1(1.645 * sdLog)).toFixed(1)} %`;
  const bar = step.pressureBar === undefined ? '' : ` at ${step.pressureBar} bar`;
  return `Press one more with ${setC} °C set, for ${step.dwellSeconds} s${bar}: the middle of the window would be known within ${percent(sdLogThen)}, now ${percent(sdLogNow)}.`;
}

/** Rows of temperature and steps of time in the picture of a window. */
const fieldRows = 31;
const fieldColumns = 61;
/** So far beyond the place the picture looks at least, even where only one temperature was pressed. */
const leastReachK = 10;

/** Errors: as `answer`. */
export function field(question: LadderQuestion): WindowFieldFacts {
  const { place, limits } = question;
  const temperatures = question.coupons.map(({ step }) => step.platenC);
  const low = Math.max(100, Math.min(...temperatures, limits.platenC[0], place.platenC - leastReachK));
  const high = Math.min(
    safetyBoundC,
    Math.max(...temperatures, limits.platenC[1], place.platenC + leastReachK),
  );
  const [short, long] = place.dwellSeconds;
  const steps = (count: number): number[] => Array.from({ length: count }, (_, i) => i / (count - 1));
  const platenC = steps(fieldRows).map((share) => low + share * (high - low));
  const dwellSeconds = steps(fieldColumns).map((share) => short * (long / short) ** share);
  const pressure = place.pressureBar === undefined ? {} : { pressureBar: place.pressureBar };
  return {
    platenC,
    dwellSeconds,
    ...windowField(fitFor(question), { platenC, dwellSeconds, ...pressure }),
  };
}

/** Errors: as `answer`. */
export function courses(question: LadderQuestion): WindowCourses {
  return windowCourses(fitFor(question), question.place).map(({ coupons, ...course }) => ({
    ...course,
    coupons: coupons.map(({ id, ...value }) => ({ number: Number(id), ...value })),
  }));
}

export interface VerdictTask {
  readonly black: MeasuredLab;
  readonly step: PressStep;
  /** Null: by common practice. */
  readonly own: LadderQuestion | null;
}

/** Errors: press.invalid, press.unsafe. */
export function verdict({ black, step, own }: VerdictTask): Omit<BlackAnswer, 'ladderId'> {
  if (own === null) {
    const said = blackVerdict(black, step);
    return { ...said, remarks: [...said.remarks] };
  }
  const fit = fitFor(own);
  const said = blackVerdict(black, step, { fit, place: own.place });
  const isAgainst =
    said.restsOn === 'own ladder' &&
    said.verdict !== 'right' &&
    likelyGood <= goodShare(fit, step, own.place.dwellSeconds);
  return { ...said, remarks: [...(isAgainst ? [against(step)] : []), ...said.remarks] };
}

/** From this share of the likely worlds on, the ladder is taken to call a setting good. */
const likelyGood = 0.5;

/** The window is sought over the times that the ladder's own was. */
function goodShare(
  fit: LadderFit,
  { platenC, dwellSeconds, pressureBar }: PressStep,
  [low, high]: readonly [number, number],
): number {
  const pressure = pressureBar === undefined ? {} : { pressureBar };
  const times = [...new Set([low, dwellSeconds, high])].sort((a, b) => a - b);
  const { within } = windowField(fit, { platenC: [platenC], dwellSeconds: times, ...pressure });
  return within[times.indexOf(dwellSeconds)] ?? 0;
}

/** A black that says otherwise than the ladder at the same setting was hardly pressed as it is thought to have been. */
const against = ({ platenC, dwellSeconds }: PressStep): string =>
  `Your ladder calls ${platenC} °C for ${dwellSeconds} s good. Before you change them, look whether platen, time, pressure and paper were the same as then.`;

/** Errors: as `answer`. */
export function fit(question: LadderQuestion): KeptFit {
  return keptFit(fitFor(question));
}

/** Errors: chart.unusable for a damaged calibration. */
export function evenness(light: EvennessLight): EvennessMap {
  const { columns, rows, pitchMm } = light;
  return evennessMap(labCells(light), columns, rows, pitchMm, light.isWrap ? wrapSides : undefined);
}
