/**
 * Closed solutions of transient conduction, for tests only: an independent way to the same numbers, as printed in
 * textbooks (Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 2.5 and 3.11; Incropera & DeWitt, chapter 5:
 * eqs. 5.42, 5.50, 5.51, 5.60, 5.63; formulae written down from memory, held to values read in the sources).
 */

/** Root of f in (low, high), where f changes sign once. */
export function bisect(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  const rising = f(a) < 0;
  for (let i = 0; i < 200; i += 1) {
    const middle = (a + b) / 2;
    if (f(middle) < 0 === rising) a = middle;
    else b = middle;
  }
  return (a + b) / 2;
}

const usualTerms = 60;

/** (T − T∞)/(Ti − T∞) in a plane wall of half thickness L: x/L = 0 the middle (or insulated face), 1 the face. */
export function slab(biot: number, fourier: number, at: number): number {
  let sum = 0;
  for (let n = 0; n < usualTerms; n += 1) {
    const zeta = bisect((z) => z * Math.sin(z) - biot * Math.cos(z), n * Math.PI, n * Math.PI + Math.PI / 2);
    sum +=
      ((4 * Math.sin(zeta)) / (2 * zeta + Math.sin(2 * zeta))) *
      Math.exp(-zeta * zeta * fourier) *
      Math.cos(zeta * at);
  }
  return sum;
}

/** The same at the centre of a ball of radius R; Bi = hR/k. */
export function ballCentre(biot: number, fourier: number, terms = usualTerms): number {
  let sum = 0;
  for (let n = 0; n < terms; n += 1) {
    const zeta = bisect(
      (z) => (1 - biot) * Math.sin(z) - z * Math.cos(z),
      n * Math.PI + 1e-9,
      (n + 1) * Math.PI - 1e-9,
    );
    sum +=
      ((4 * (Math.sin(zeta) - zeta * Math.cos(zeta))) / (2 * zeta - Math.sin(2 * zeta))) *
      Math.exp(-zeta * zeta * fourier);
  }
  return sum;
}

/** Bessel's integral (Abramowitz & Stegun 9.1.21); the trapezoidal rule is exact to rounding on a period. */
function bessel(order: 0 | 1, x: number): number {
  const n = 64 + Math.ceil(Math.abs(x));
  let sum = 0;
  for (let i = 0; i < n; i += 1) {
    const angle = (2 * Math.PI * i) / n;
    sum += Math.cos(order * angle - x * Math.sin(angle));
  }
  return sum / n;
}

/** The same on the axis of a long rod of radius R. */
export function rodAxis(biot: number, fourier: number): number {
  let sum = 0;
  const f = (z: number): number => z * bessel(1, z) - biot * bessel(0, z);
  let low = 1e-9;
  for (let n = 0; n < 25; n += 1) {
    let high = low + 0.05;
    while (f(low) < 0 === f(high) < 0) high += 0.05;
    const zeta = bisect(f, low, high);
    low = high;
    const [j0, j1] = [bessel(0, zeta), bessel(1, zeta)];
    sum += (2 / zeta) * (j1 / (j0 * j0 + j1 * j1)) * Math.exp(-zeta * zeta * fourier);
  }
  return sum;
}

/** Error function: its power series (Abramowitz & Stegun 7.1.5), enough for |x| < 4. */
export function erf(x: number): number {
  let term = x;
  let sum = x;
  for (let n = 1; n < 200; n += 1) {
    term *= (-x * x) / n;
    sum += term / (2 * n + 1);
  }
  return (2 / Math.sqrt(Math.PI)) * sum;
}
