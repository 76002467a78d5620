import { curveAt } from './curves.js';
import { asideOf, indexOf, type LadderDraw, type LadderFit, lawOf } from './fit-ladder.js';
import { type DoseLaw, logDoseOver } from './kinetics.js';
import type { ResponseId } from './responses.js';
import { solids } from './types.js';

export interface WindowRules {
  /** Share of its top that each solid's density must reach. */
  readonly densityShare: number;
  /** How far a black may lie towards green or brown and still be called neutral, CIELAB units. */
  readonly neutralWithin: number;
  /** Edges are crisp up to this width; when absent, up to `edgeGrowth` times the width at which the dye has just arrived. */
  readonly edgeLimitUm?: number;
  readonly edgeGrowth: number;
}

/**
 * Five per cent of density is what this program promises. Two units of hue are about what is hardly seen in a black; a
 * quarter more of edge width likewise: choices of ours, no published bound was found for pressed work.
 */
export const usualRules: WindowRules = { densityShare: 0.95, neutralWithin: 2, edgeGrowth: 1.25 };

export type Opening = 'dye still arriving' | 'black still green' | 'from the shortest';
export type Closing = 'dye going again' | 'black turning brown' | 'edges turning soft' | 'up to the longest';

/** One world's window along time, at one temperature and pressure. From may lie after to: then it has none. */
export interface WorldWindow {
  readonly fromSeconds: number;
  readonly toSeconds: number;
  readonly opens: Opening;
  readonly closes: Closing;
  /** When every density has come, whatever black and edges do: crisp edges are told from there. */
  readonly arrivalSeconds: number;
}

export interface WindowPlace {
  readonly platenC: number;
  readonly pressureBar?: number;
  /** Times that may be pressed. */
  readonly dwellSeconds: readonly [low: number, high: number];
}

/** What values do over ln time: enough to find a window in any world, fitted or known. */
export interface ValueCourses {
  /** Densities that must arrive. */
  readonly densities: readonly ((logSeconds: number) => number)[];
  /**
   * What each density comes to where it was pressed longer or hotter than the times allowed here. Without it a place too
   * cool for the dye would be measured by the little that arrives there.
   */
  readonly tops?: readonly number[];
  readonly blackHue?: (logSeconds: number) => number;
  readonly edgeUm?: (logSeconds: number) => number;
  /** Above 0 is soft, where only eyes judged. */
  readonly softness?: (logSeconds: number) => number;
}

/**
 * The stretch of time in which every solid's density is within the share of its top (over the times allowed, or a higher
 * one known), black is neutral and edges are crisp.
 * @param gridPoints times at which values are looked at, even in ln seconds; between them they run straight
 */
export function windowOf(
  courses: ValueCourses,
  [lowSeconds, highSeconds]: readonly [number, number],
  rules: WindowRules = usualRules,
  gridPoints = 161,
): WorldWindow {
  const [low, high] = [Math.log(lowSeconds), Math.log(highSeconds)];
  const grid = Array.from({ length: gridPoints }, (_, i) => low + ((high - low) * i) / (gridPoints - 1));
  let from = low;
  let to = high;
  let opens: Opening = 'from the shortest';
  let closes: Closing = 'up to the longest';
  const open = (at: number, why: Opening): void => {
    if (at > from) [from, opens] = [at, why];
  };
  const close = (at: number, why: Closing): void => {
    if (at < to) [to, closes] = [at, why];
  };

  courses.densities.forEach((density, d) => {
    const values = grid.map(density);
    let top = 0;
    values.forEach((v, i) => {
      if (v > values[top]!) top = i;
    });
    const known = Math.max(values[top]!, courses.tops?.[d] ?? 0);
    const margin = values.map((v) => v - rules.densityShare * known);
    if (margin[top]! < 0) {
      open(high, 'dye still arriving');
      return;
    }
    open(lastCrossing(grid, margin, top), 'dye still arriving');
    close(firstFall(grid, margin, top), 'dye going again');
  });
  const arrival = from;
  if (courses.blackHue) {
    const hues = grid.map(courses.blackHue);
    const past = hues.map((v) => v + rules.neutralWithin);
    const start = past.findIndex((v) => v >= 0);
    open(start < 0 ? high : lastCrossing(grid, past, start), 'black still green');
    const brown = hues.map((v) => rules.neutralWithin - v);
    close(brown[0]! < 0 ? low : firstFall(grid, brown, 0), 'black turning brown');
  }
  if (courses.edgeUm) {
    const limit = rules.edgeLimitUm ?? rules.edgeGrowth * courses.edgeUm(arrival);
    const crisp = grid.map((at) => limit - courses.edgeUm!(at));
    close(crisp[0]! < 0 ? low : firstFall(grid, crisp, 0), 'edges turning soft');
  } else if (courses.softness) {
    const crisp = grid.map((at) => -courses.softness!(at));
    close(crisp[0]! < 0 ? low : firstFall(grid, crisp, 0), 'edges turning soft');
  }
  return {
    fromSeconds: Math.exp(from),
    toSeconds: Math.exp(to),
    opens,
    closes,
    arrivalSeconds: Math.exp(arrival),
  };
}

/** Where the margin last turned positive at or before `upTo`; the grid's start when it never was negative. */
function lastCrossing(grid: readonly number[], margin: readonly number[], upTo: number): number {
  for (let i = upTo; i > 0; i -= 1)
    if (margin[i - 1]! < 0 && margin[i]! >= 0) return between(grid, margin, i);
  return grid[0]!;
}

function firstFall(grid: readonly number[], margin: readonly number[], since: number): number {
  for (let i = since + 1; i < grid.length; i += 1) if (margin[i]! < 0) return between(grid, margin, i);
  return grid.at(-1)!;
}

function between(grid: readonly number[], margin: readonly number[], i: number): number {
  const [a, b] = [margin[i - 1]!, margin[i]!];
  const share = a === b ? 1 : a / (a - b);
  return grid[i - 1]! + Math.min(1, Math.max(0, share)) * (grid[i]! - grid[i - 1]!);
}

/** Steps over the coupons' doses in which tops are sought; they are flat. */
const topSteps = 24;

/** A drawn world's values over ln time at a place; tops over all doses that were pressed. */
export function coursesOf(
  fit: LadderFit,
  draw: LadderDraw,
  place: Omit<WindowPlace, 'dwellSeconds'>,
): ValueCourses {
  const law = lawOf(fit, draw);
  const zAt = zOf(law, draw, place);
  const aside = asideOf(place, fit);
  const course = (id: ResponseId): ((logSeconds: number) => number) | undefined => {
    const at = indexOf(fit, id);
    if (at < 0) return undefined;
    return (logSeconds) => curveAt(fit.responses[at]!.curve, draw.theta[at]!, zAt(logSeconds), aside);
  };
  const densities = solids.flatMap((solid) => course(`density.${solid}`) ?? []);
  const [blackHue, edgeUm, softness] = [course('blackHue'), course('edgeUm'), course('edgeByEye')];
  const [least, most] = draw.reach;
  const tops = solids.flatMap((solid) => {
    const at = indexOf(fit, `density.${solid}`);
    if (at < 0) return [];
    const { curve } = fit.responses[at]!;
    let top = 0;
    for (let i = 0; i <= topSteps; i += 1)
      top = Math.max(top, curveAt(curve, draw.theta[at]!, least + ((most - least) * i) / topSteps, aside));
    return [top];
  });
  return {
    densities,
    tops,
    ...(blackHue ? { blackHue } : {}),
    ...(edgeUm ? { edgeUm } : {}),
    ...(softness ? { softness } : {}),
  };
}

function zOf(
  law: DoseLaw,
  draw: LadderDraw,
  { platenC, pressureBar }: Omit<WindowPlace, 'dwellSeconds'>,
): (logSeconds: number) => number {
  const over = logDoseOver({ platenC, ...(pressureBar === undefined ? {} : { pressureBar }) }, law);
  // Every course asks for the same times in turn.
  let [asked, z] = [Number.NaN, 0];
  const known = new Map<number, number>();
  return (logSeconds) => {
    if (logSeconds === asked) return z;
    asked = logSeconds;
    const found = known.get(logSeconds);
    z = found ?? over(Math.exp(logSeconds)) - draw.middleLogDose;
    if (found === undefined) known.set(logSeconds, z);
    return z;
  };
}
