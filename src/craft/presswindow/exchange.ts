import { choleskyInPlace, createRandom } from '#craft/numerics';

/** ln |XᵀX| of rows of terms; −Infinity when they do not determine the terms. */
export function logDeterminant(rows: readonly (readonly number[])[]): number {
  const p = rows[0]!.length;
  const matrix = new Float64Array(p * p);
  for (const row of rows)
    for (let i = 0; i < p; i += 1) for (let j = 0; j <= i; j += 1) matrix[i * p + j]! += row[i]! * row[j]!;
  if (!choleskyInPlace(matrix, p)) return Number.NEGATIVE_INFINITY;
  let sum = 0;
  for (let i = 0; i < p; i += 1) sum += 2 * Math.log(matrix[i * p + i]!);
  return sum < -25 ? Number.NEGATIVE_INFINITY : sum;
}

const starts = 12;

/**
 * D-optimal choice of points by exchange (Fedorov, Theory of Optimal Experiments, 1972): from several random starts the
 * exchange that gains most is made until none gains. A point may be chosen more than once.
 * @param candidates each one's row of terms
 * @param fixed rows that are in the plan in any case
 * @returns indices into the candidates, ascending
 */
export function exchange(
  candidates: readonly (readonly number[])[],
  count: number,
  seed: number,
  fixed: readonly (readonly number[])[] = [],
): number[] {
  const random = createRandom(seed);
  let best: { value: number; chosen: number[] } = { value: Number.NEGATIVE_INFINITY, chosen: [] };
  const logOf = (chosen: readonly number[]): number =>
    logDeterminant([...fixed, ...chosen.map((i) => candidates[i]!)]);
  for (let start = 0; start < starts || best.chosen.length === 0; start += 1) {
    let chosen = Array.from({ length: count }, () => random.integer(candidates.length));
    let value = logOf(chosen);
    for (;;) {
      let gain: { value: number; chosen: number[] } | null = null;
      for (let k = 0; k < count; k += 1)
        for (let c = 0; c < candidates.length; c += 1) {
          const tried = chosen.with(k, c);
          const found = logOf(tried);
          if (found > (gain?.value ?? value) + 1e-9) gain = { value: found, chosen: tried };
        }
      if (gain === null) break;
      ({ value, chosen } = gain);
    }
    if (value > best.value || best.chosen.length === 0) best = { value, chosen };
    if (start > 10 * starts) break;
  }
  return best.chosen.toSorted((a, b) => a - b);
}
