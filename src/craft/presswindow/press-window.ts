import { Problem } from '#craft/problem';
import { indexOf, type LadderFit, lawOf } from './fit-ladder.js';
import { logDose, platenForLogDose } from './kinetics.js';
import { estimateOf, median, quantile, standardDeviation } from './quantile.js';
import type { Estimate } from './types.js';
import {
  type Closing,
  coursesOf,
  type Opening,
  usualRules,
  type WindowPlace,
  type WindowRules,
  type WorldWindow,
  windowOf,
} from './window.js';

export interface PressWindow {
  readonly place: WindowPlace;
  readonly rules: WindowRules;
  readonly fromSeconds: Estimate;
  readonly toSeconds: Estimate;
  /** Share of the worlds that have a window at all. */
  readonly windowProbability: number;
  readonly opens: Opening;
  readonly closes: Closing;
  readonly recipe: {
    readonly platenC: number;
    readonly pressureBar?: number;
    /** The middle of the window, in ratios: errors of time and heat multiply the dose. Whole seconds. */
    readonly dwellSeconds: number;
    readonly middleSeconds: Estimate;
    /** Standard deviation of ln of the middle: how sure the middle itself is. */
    readonly middleSdLog: number;
    /** Share of the worlds in which the recipe lies within the window. */
    readonly probabilityWithin: number;
    /** Seconds and degrees that may go wrong either way, of nine in ten worlds. 0 when that is not sure. */
    readonly tolerance: {
      readonly shorterSeconds: number;
      readonly longerSeconds: number;
      readonly coolerK: number;
      readonly hotterK: number;
    };
  };
  /** What is not measured, and so not part of this window; what it rests on. */
  readonly remarks: readonly string[];
  /** One sentence on top. */
  readonly words: string;
}

/** Each world's window and the middle of it, ln seconds. */
export function worldWindows(
  fit: LadderFit,
  place: WindowPlace,
  rules: WindowRules = usualRules,
): { window: WorldWindow; middle: number }[] {
  return fit.draws.map((draw) => {
    const window = windowOf(coursesOf(fit, draw, place), place.dwellSeconds, rules);
    return { window, middle: 0.5 * (Math.log(window.fromSeconds) + Math.log(window.toSeconds)) };
  });
}

/**
 * The window in which everything measured is well, and the recipe at its middle.
 * @throws Problem `ladder.unusable` when nothing that bounds a window was measured
 */
export function pressWindow(
  fit: LadderFit,
  place: WindowPlace,
  rules: WindowRules = usualRules,
): PressWindow {
  const hasDensity = fit.responses.some(({ id }) => id.startsWith('density.'));
  const hasHue = indexOf(fit, 'blackHue') >= 0;
  const hasEdges = indexOf(fit, 'edgeUm') >= 0 || indexOf(fit, 'edgeByEye') >= 0;
  if (!hasDensity && !hasHue)
    throw new Problem('ladder.unusable', 'Neither density nor the hue of black is known for three coupons.', {
      remedy: 'Read the black patches, or judge them by eye: green, neutral or brown.',
    });
  const worlds = worldWindows(fit, place, rules);
  const middles = worlds.map(({ middle }) => middle);
  const dwellSeconds = Math.round(Math.exp(median(middles)));
  const windows = worlds.map(({ window }) => window);
  const inside = windows.filter((w) => w.fromSeconds <= dwellSeconds && dwellSeconds <= w.toSeconds).length;
  const probabilityWithin = inside / windows.length;
  const windowProbability = windows.filter((w) => w.fromSeconds < w.toSeconds).length / windows.length;

  const froms = windows.map((w) => w.fromSeconds);
  const tos = windows.map((w) => w.toSeconds);
  const pressure = place.pressureBar === undefined ? {} : { pressureBar: place.pressureBar };
  const shifts = fit.draws.map((draw, i) => {
    const law = lawOf(fit, draw);
    const shift = (seconds: number): number => {
      const wanted = logDose({ platenC: place.platenC, ...pressure, dwellSeconds: seconds }, law);
      return platenForLogDose(wanted, { ...pressure, dwellSeconds }, law) - place.platenC;
    };
    return { cooler: -shift(froms[i]!), hotter: shift(tos[i]!) };
  });
  const sure = (values: readonly number[]): number => Math.max(0, quantile(values, 0.1));
  const tolerance = {
    shorterSeconds: sure(froms.map((from) => dwellSeconds - from)),
    longerSeconds: sure(tos.map((to) => to - dwellSeconds)),
    coolerK: sure(shifts.flatMap(({ cooler }) => (Number.isNaN(cooler) ? [] : [cooler]))) || 0,
    hotterK: sure(shifts.flatMap(({ hotter }) => (Number.isNaN(hotter) ? [] : [hotter]))) || 0,
  };
  const opens = most(windows.map((w) => w.opens));
  const closes = most(windows.map((w) => w.closes));
  const remarks = [...fit.remarks];
  if (!hasDensity) remarks.push('Density was not measured: the window says nothing about full colour.');
  if (!hasHue) remarks.push('Black’s hue is not known: the window says nothing about green or brown.');
  if (!hasEdges) remarks.push('Edges are not known: the window says nothing about sharpness.');
  if (closes === 'up to the longest')
    remarks.push('The far end of the window was not seen: it goes on to the longest time allowed.');
  if (opens === 'from the shortest')
    remarks.push('The near end of the window was not seen: even the shortest time allowed is well.');
  if (!fit.activation.isFitted) remarks.push(fit.activation.basis);
  return {
    place,
    rules,
    fromSeconds: estimateOf(froms),
    toSeconds: estimateOf(tos),
    windowProbability,
    opens,
    closes,
    recipe: {
      platenC: place.platenC,
      ...pressure,
      dwellSeconds,
      middleSeconds: estimateOf(middles.map(Math.exp)),
      middleSdLog: standardDeviation(middles),
      probabilityWithin,
      tolerance,
    },
    remarks,
    words: wordsOf(
      place.platenC,
      dwellSeconds,
      probabilityWithin,
      windowProbability,
      tolerance,
      opens,
      closes,
    ),
  };
}

function wordsOf(
  platenC: number,
  seconds: number,
  within: number,
  hasWindow: number,
  tolerance: PressWindow['recipe']['tolerance'],
  opens: Opening,
  closes: Closing,
): string {
  const at = `${platenC} °C for ${seconds} s`;
  if (hasWindow < 0.5)
    return `There is probably no time at ${platenC} °C at which all is well (${closes} comes before the end of “${opens}”); ${at} is the best between.`;
  const room = `it bears ${Math.floor(tolerance.shorterSeconds)} s less and ${Math.floor(tolerance.longerSeconds)} s more`;
  if (within >= 0.95) return `Press ${at}: ${room}.`;
  if (within >= 0.75)
    return `Press ${at}; probably right (${Math.round(100 * within)} in 100). One more coupon would make it surer.`;
  return `${at} is a first guess (right in ${Math.round(100 * within)} of 100 cases): press further coupons.`;
}

function most<T>(values: readonly T[]): T {
  const counts = new Map<T, number>();
  for (const v of values) counts.set(v, (counts.get(v) ?? 0) + 1);
  return [...counts].reduce((a, b) => (b[1] > a[1] ? b : a))[0];
}
