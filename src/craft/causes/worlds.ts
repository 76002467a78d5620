import { Problem } from '#craft/problem';

/** Which of the causes are present: their numbers, rising. */
export type World = readonly number[];

/** All sets of at most `atMost` of `size` causes: none first, then singles, pairs, … */
export function worldsOf(size: number, atMost: number): World[] {
  const worlds: World[] = [[]];
  let last: World[] = [[]];
  for (let count = 1; count <= Math.min(atMost, size); count += 1) {
    const next: World[] = [];
    for (const world of last) {
      for (let i = (world[world.length - 1] ?? -1) + 1; i < size; i += 1) next.push([...world, i]);
    }
    worlds.push(...next);
    last = next;
  }
  return worlds;
}

/** How the worlds stand after the evidence. */
export interface Weighed {
  readonly worlds: readonly World[];
  /** Chance of each world; sums to 1. */
  readonly chances: Float64Array;
  /** ln of the evidence's chance under the model (of what the worlds hold). */
  readonly logEvidence: number;
}

/**
 * Bayes' rule over the worlds, exactly.
 * @param logPrior ln weight of each world before the evidence (need not be normalised, then neither is logEvidence)
 * @param logLikelihoods for each piece of evidence, ln chance of it in each world
 */
export function weigh(
  worlds: readonly World[],
  logPrior: Float64Array,
  logLikelihoods: readonly Float64Array[],
): Weighed {
  const logs = Float64Array.from(logPrior);
  for (const logLikelihood of logLikelihoods) {
    for (let w = 0; w < logs.length; w += 1) logs[w] = logs[w]! + logLikelihood[w]!;
  }
  let most = Number.NEGATIVE_INFINITY;
  for (const log of logs) most = Math.max(most, log);
  if (!Number.isFinite(most)) {
    throw new Problem(
      'request.invalid',
      'These answers contradict each other: no cause and no chance fits them all.',
      {
        remedy: 'Take one of the answers back and look again.',
      },
    );
  }
  let sum = 0;
  for (let w = 0; w < logs.length; w += 1) {
    logs[w] = Math.exp(logs[w]! - most);
    sum += logs[w]!;
  }
  for (let w = 0; w < logs.length; w += 1) logs[w] = logs[w]! / sum;
  return { worlds, chances: logs, logEvidence: most + Math.log(sum) };
}

/** Chance of each cause being present: the sum over the worlds it is in. */
export function marginals(weighed: Weighed, size: number): Float64Array {
  const chances = new Float64Array(size);
  weighed.worlds.forEach((world, w) => {
    for (const cause of world) chances[cause] = chances[cause]! + weighed.chances[w]!;
  });
  return chances;
}

/** Expected chance of something whose chance in each world is known. */
export function predicted(weighed: Weighed, inWorld: (world: World) => number): number {
  let sum = 0;
  weighed.worlds.forEach((world, w) => {
    sum += weighed.chances[w]! * inWorld(world);
  });
  return sum;
}
