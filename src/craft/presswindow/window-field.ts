import type { LadderDraw, LadderFit } from './fit-ladder.js';
import { median } from './quantile.js';
import { coursesOf, usualRules, type ValueCourses, type WindowRules, windowOf } from './window.js';

export interface FieldAxes {
  /** True temperatures, rising. */
  readonly platenC: readonly number[];
  /** Rising. */
  readonly dwellSeconds: readonly number[];
  readonly pressureBar?: number;
}

/** The window as a picture: row by row of temperature, in each row along time. */
export interface WindowField {
  /** Share of the worlds in which all that was followed is well there, 0..1. */
  readonly within: number[];
  /** Median of the faintest solid's density beside its top, 0..1; 1 where no density was followed. */
  readonly densityShare: number[];
  /** Median hue of black, CIELAB units: − green, + brown. */
  readonly blackHue: (number | null)[];
  /** Median edge width beside the crisp limit: 1 is at it. By eye: below or above 1 as they would be called crisp or soft. */
  readonly edgeShare: (number | null)[];
}

/** Worlds that are drawn into the picture: shares of a hundredth or so are all that can be seen. */
const worldsDrawn = 120;
/** Times at which a world's window is sought: a picture's cells are no finer. */
const rowPoints = 71;

/**
 * What `windowOf` says of each world at each temperature, over a grid of times. Tops of density are sought over the times
 * of the grid and the doses that were pressed.
 */
export function windowField(fit: LadderFit, axes: FieldAxes, rules: WindowRules = usualRules): WindowField {
  const draws = thinned(fit.draws);
  const logs = axes.dwellSeconds.map(Math.log);
  const field: WindowField = { within: [], densityShare: [], blackHue: [], edgeShare: [] };
  for (const platenC of axes.platenC) {
    const pressure = axes.pressureBar === undefined ? {} : { pressureBar: axes.pressureBar };
    const worlds = draws.map((draw) => worldAt(coursesOf(fit, draw, { platenC, ...pressure }), logs, rules));
    logs.forEach((_, i) => {
      field.within.push(worlds.filter((world) => world.isWell[i]).length / worlds.length);
      field.densityShare.push(median(worlds.map((world) => world.densityShare[i]!)));
      field.blackHue.push(medianOrNull(worlds.map((world) => world.blackHue?.[i])));
      field.edgeShare.push(medianOrNull(worlds.map((world) => world.edgeShare?.[i])));
    });
  }
  return field;
}

/** Evenly taken: draws have no order. */
function thinned(draws: readonly LadderDraw[]): readonly LadderDraw[] {
  const step = Math.max(1, draws.length / worldsDrawn);
  return Array.from({ length: Math.min(draws.length, worldsDrawn) }, (_, i) => draws[Math.floor(i * step)]!);
}

interface WorldRow {
  readonly isWell: readonly boolean[];
  readonly densityShare: readonly number[];
  readonly blackHue: readonly number[] | null;
  readonly edgeShare: readonly number[] | null;
}

function worldAt(courses: ValueCourses, logs: readonly number[], rules: WindowRules): WorldRow {
  const times = [Math.exp(logs[0]!), Math.exp(logs.at(-1)!)] as const;
  const { fromSeconds, toSeconds, arrivalSeconds } = windowOf(courses, times, rules, rowPoints);
  const [from, to] = [Math.log(fromSeconds), Math.log(toSeconds)];
  const tops = courses.densities.map((density, d) => ({
    density,
    top: Math.max(courses.tops?.[d] ?? 0, ...logs.map(density)),
  }));
  const { blackHue, edgeUm, softness } = courses;
  let edgeShare: number[] | null = null;
  if (edgeUm) {
    const limit = rules.edgeLimitUm ?? rules.edgeGrowth * edgeUm(Math.log(arrivalSeconds));
    edgeShare = logs.map((at) => edgeUm(at) / limit);
  } else if (softness) edgeShare = logs.map((at) => Math.exp(softness(at)));
  return {
    // Ends as far off as rounding goes still count.
    isWell: logs.map((at) => from < to && at >= from - 1e-9 && at <= to + 1e-9),
    densityShare: logs.map((at) => Math.min(1, ...tops.map(({ density, top }) => density(at) / top))),
    blackHue: blackHue ? logs.map(blackHue) : null,
    edgeShare,
  };
}

function medianOrNull(values: readonly (number | undefined)[]): number | null {
  const known = values.filter((v) => v !== undefined);
  return known.length === 0 ? null : median(known);
}
