const across = 4;

/**
 * Standard deviation of a patch's mean, from the means of its sixteen parts: neighbouring pixels are alike, so dividing
 * by their number would promise too much.
 * @param n samples a row @param used 1 = counted
 */
export function sdOfBlocks(values: Float64Array, used: Uint8Array, n: number): number {
  const rows = values.length / n;
  const sums = new Float64Array(across * across);
  const counts = new Float64Array(across * across);
  for (let i = 0; i < values.length; i += 1) {
    if (used[i] === 0) continue;
    const column = Math.floor(((i % n) * across) / n);
    const row = Math.floor((Math.floor(i / n) * across) / rows);
    sums[row * across + column]! += values[i]!;
    counts[row * across + column]! += 1;
  }
  const means: number[] = [];
  for (let k = 0; k < sums.length; k += 1) if (counts[k]! > 0) means.push(sums[k]! / counts[k]!);
  if (means.length < 2) return 0;
  const mean = means.reduce((sum, v) => sum + v, 0) / means.length;
  const squares = means.reduce((sum, v) => sum + (v - mean) ** 2, 0);
  return Math.sqrt(squares / (means.length - 1) / means.length);
}
