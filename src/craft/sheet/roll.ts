/** Shortest sheet drawn off a roll: less does not lie flat and leaves the marks no room. */
const shortestMm = 150;

/**
 * The shortest whole number of millimetres for which `holds` is true, by bisection; `mostMm` itself when none shorter
 * does. More length never holds less.
 */
export function rollLengthMm(mostMm: number, holds: (lengthMm: number) => boolean): number {
  if (mostMm <= shortestMm) return mostMm;
  let low = shortestMm - 1;
  let high = Math.floor(mostMm);
  if (!holds(high)) return mostMm;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}
