/**
 * Noisy-OR with leak (Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, 4.3.2; leak: Henrion 1989):
 * the finding stays away only if the leak and every present cause each fail to bring it about.
 * @param leak chance that it comes of itself
 * @param strengths chance that each present cause, alone, brings it about
 */
export function noisyOr(leak: number, strengths: readonly number[]): number {
  let away = 1 - leak;
  for (const strength of strengths) away *= 1 - strength;
  return 1 - away;
}

/** One way in which a finding can come about. */
export interface Way {
  readonly chance: number;
  /** Ways are told apart by how strong the finding then is. */
  readonly typical: number;
  /** Density (or chance) of what was observed, if the finding came about in this way. */
  readonly density: number;
}

/**
 * Chance of an observed strength when several ways may be at work together: the strongest of those at work shows,
 * so P = Σ_k c_k·d_k·Π_{stronger m}(1 − c_m) + d_0·Π(1 − c_m) (a graded noisy-OR, as in noisy-MAX: Díez 1993).
 * With one density for all ways it is the plain noisy-OR with soft evidence.
 * @param densityIfAway density of the observation if the finding is not there
 */
export function strongestShows(ways: readonly Way[], densityIfAway: number): number {
  const falling = ways.length < 2 ? ways : [...ways].sort((a, b) => b.typical - a.typical);
  let noneYet = 1;
  let sum = 0;
  for (const way of falling) {
    sum += noneYet * way.chance * way.density;
    noneYet *= 1 - way.chance;
  }
  return sum + noneYet * densityIfAway;
}
