/**
 * Φ(x): Zelen & Severo's rational form of erfc (Abramowitz & Stegun 26.2.17, error below 7.5e-8) where it is large,
 * Mills's ratio as a continued fraction (26.2.14) in the tails, so that logarithms stay right.
 */
export function normalCdf(x: number): number {
  return x < 0 ? upperTail(-x) : 1 - upperTail(x);
}

/** ln Φ(x), right far into the lower tail. */
export function logNormalCdf(x: number): number {
  if (x > -5) return Math.log(normalCdf(x));
  return -0.5 * x * x - 0.5 * Math.log(2 * Math.PI) + Math.log(millsRatio(-x));
}

export const normalDensity = (x: number): number => Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);

function upperTail(x: number): number {
  if (x > 3) return normalDensity(x) * millsRatio(x);
  const t = 1 / (1 + 0.2316419 * x);
  const poly =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  return normalDensity(x) * poly;
}

/** (1 − Φ(x))/φ(x) = 1/(x + 1/(x + 2/(x + 3/(x + …)))), x > 0 */
function millsRatio(x: number): number {
  let tail = x;
  for (let k = 60; k >= 1; k -= 1) tail = x + k / tail;
  return 1 / tail;
}
