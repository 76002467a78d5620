/** ψ'(x): recurrence up to x ≥ 6, then the asymptotic series (Abramowitz & Stegun 6.4.6, 6.4.12). */
export function trigamma(x: number): number {
  let sum = 0;
  let at = x;
  while (at < 6) {
    sum += 1 / (at * at);
    at += 1;
  }
  const inverse = 1 / (at * at);
  return sum + 1 / at + inverse / 2 + (inverse / at) * (1 / 6 - inverse * (1 / 30 - inverse / 42));
}
