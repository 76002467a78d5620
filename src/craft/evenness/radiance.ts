/** Second radiation constant hc/k, µm·K (CODATA 2018, exact to the digits used). */
const c2 = 14387.76877;
const kelvinAtZeroC = 273.15;

/**
 * Share of a black body's radiation below a wavelength, by the series F(0→λT) = 15/π⁴ Σ e^(−nz)/n (z³ + 3z²/n + 6z/n² +
 * 6/n³), z = c₂/λT (Chang & Rhee, Int. Comm. Heat Mass Transfer 11, 1984).
 */
export function shareBelow(micrometreKelvin: number): number {
  const z = c2 / micrometreKelvin;
  let sum = 0;
  for (let n = 1; n <= 200; n += 1) {
    const term = (Math.exp(-n * z) / n) * (z ** 3 + (3 * z * z) / n + (6 * z) / n ** 2 + 6 / n ** 3);
    sum += term;
    if (term < 1e-16 * sum) break;
  }
  return (15 / Math.PI ** 4) * sum;
}

/** Wavelengths a thermometer sees, µm. Hand-held ones of low temperatures: 8–14 µm (common practice). */
export type Band = readonly [from: number, to: number];
export const handHeldBand: Band = [8, 14];

/** Radiance of a black body within the band, up to a constant factor. */
export function bandRadiance(kelvin: number, [from, to]: Band): number {
  return kelvin ** 4 * (shareBelow(to * kelvin) - shareBelow(from * kelvin));
}

/** K of the black body with so much radiance, by halving. */
function kelvinOf(radiance: number, band: Band): number {
  let [low, high] = [50, 6000];
  for (let i = 0; i < 80; i += 1) {
    const middle = (low + high) / 2;
    if (bandRadiance(middle, band) < radiance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * True temperature from what an infra-red thermometer showed. The face sends ε L(T) and throws back (1 − ε) L(T around);
 * the instrument takes what it gets for ε′ L(shown) + (1 − ε′) L(T around) with the ε′ it was set to.
 *
 * @returns °C
 */
export function trueCelsius(
  shownC: number,
  emissivitySet: number,
  emissivity: number,
  aroundC: number,
  band: Band = handHeldBand,
): number {
  const around = bandRadiance(aroundC + kelvinAtZeroC, band);
  const shown = bandRadiance(shownC + kelvinAtZeroC, band);
  const own = (emissivitySet / emissivity) * (shown - around) + around;
  return kelvinOf(Math.max(own, 0), band) - kelvinAtZeroC;
}
