export const normalDensity = (z: number): number => Math.exp(-0.5 * z * z) / Math.sqrt(2 * Math.PI);

/** Abramowitz & Stegun, Handbook of Mathematical Functions, 26.2.17; true to 7.5e-8. */
export function normalCdf(z: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(z));
  const series =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = normalDensity(z) * series;
  return z > 0 ? 1 - tail : tail;
}

/** The other way round, within ±4, by bisection. */
export function normalQuantile(share: number): number {
  let [low, high] = [-4, 4];
  for (let k = 0; k < 40; k += 1) {
    const middle = (low + high) / 2;
    if (normalCdf(middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
