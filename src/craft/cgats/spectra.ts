import type { Triple, Triple3 } from '#craft/colour';
import { Problem } from '#craft/problem';
import { daylightComponents, daylightFirstNm, daylightStepNm } from './refdata/daylight-components.js';
import { observer1931, observerFirstNm, observerStepNm } from './refdata/observer-1931.js';

/** Relative power at a wavelength in nm. */
export type Illuminant = (nm: number) => number;

/**
 * CIE daylight of a correlated colour temperature, from its chromaticity and three components (CIE 15:2004, eq. 3.3 to
 * 3.6), linear between the tabled wavelengths as the CIE prescribes.
 */
export function daylight(kelvin: number): Illuminant {
  const t = 1000 / kelvin;
  const x =
    kelvin <= 7000
      ? 0.244063 + 0.09911 * t + 2.9678 * t * t - 4.607 * t ** 3
      : 0.23704 + 0.24748 * t + 1.9018 * t * t - 2.0064 * t ** 3;
  const y = -3 * x * x + 2.87 * x - 0.275;
  const m = 0.0241 + 0.2562 * x - 0.7341 * y;
  const m1 = round3((-1.3515 - 1.7703 * x + 5.9114 * y) / m);
  const m2 = round3((0.03 - 31.4424 * x + 30.0717 * y) / m);
  const power = daylightComponents.map(([s0, s1, s2]) => s0 + m1 * s1 + m2 * s2);
  return (nm) => {
    const at = Math.min(power.length - 1, Math.max(0, (nm - daylightFirstNm) / daylightStepNm));
    const i = Math.min(power.length - 2, Math.floor(at));
    return power[i]! + (at - i) * (power[i + 1]! - power[i]!);
  };
}

/** CIE rounds M1 and M2 to three decimals. */
const round3 = (v: number): number => Math.round(1000 * v) / 1000;

/** D50: nominal 5000 K brought to today's radiation constant (CIE 15:2004, 3.1). */
export const d50Power = daylight((5000 * 1.4388) / 1.438);

/**
 * Weights for reflectance factors measured at `count` wavelengths from `firstNm` every `stepNm`: their weighted sum is
 * XYZ with 100 for the perfect diffuser (ASTM E308). Between measured wavelengths reflectance is taken as a cubic through
 * the four neighbours, as ASTM E2022 does; weights that belong beyond the ends are added to the end ones (E308, 7.3.2.2).
 * The sum runs every 1 nm.
 */
export function spectralWeights(
  firstNm: number,
  stepNm: number,
  count: number,
  illuminant: Illuminant = d50Power,
): Triple3[] {
  const weights = Array.from({ length: count }, (): Triple3 => [0, 0, 0]);
  let whiteY = 0;
  const lastNm = observerFirstNm + observerStepNm * (observer1931.length - 1);
  for (let nm = observerFirstNm; nm <= lastNm; nm += 1) {
    const power = illuminant(nm);
    const seen = observerAt(nm).map((v) => v * power) as Triple3;
    whiteY += seen[1];
    for (const [sample, share] of sharesAt((nm - firstNm) / stepNm, count)) {
      const weight = weights[sample]!;
      for (let j = 0; j < 3; j += 1) weight[j] = weight[j]! + share * seen[j]!;
    }
  }
  return weights.map((w) => w.map((v) => (100 * v) / whiteY) as Triple3);
}

/** The observer at any wavelength of its table, cubic between the tabled ones. */
function observerAt(nm: number): Triple3 {
  const out: Triple3 = [0, 0, 0];
  for (const [row, share] of sharesAt((nm - observerFirstNm) / observerStepNm, observer1931.length)) {
    for (let j = 0; j < 3; j += 1) out[j] = out[j]! + share * observer1931[row]![j]!;
  }
  return out;
}

/** Which samples, and how much of each, make up the reflectance at a place between them (Lagrange, E2022). */
function sharesAt(place: number, count: number): [number, number][] {
  const cell = Math.floor(place);
  return [cell - 1, cell, cell + 1, cell + 2].map((i) => {
    let share = 1;
    for (let k = cell - 1; k <= cell + 2; k += 1) if (k !== i) share *= (place - k) / (i - k);
    return [Math.min(count - 1, Math.max(0, i)), share];
  });
}

/** The PCS white (ICC.1:2022, 7.2.16), which the perfect diffuser must come out as. */
const pcsWhite: Triple = [96.42, 100, 82.49];

/**
 * XYZ (D50, 2°, 100 for the perfect diffuser) of reflectance factors 0..1. Sums are brought to the PCS white exactly:
 * CIE's D50 gives Z 82.5, the ICC's rounding 82.49.
 * @throws Problem `measurements.broken` if the wavelengths do not cover what the eye sees
 */
export function reflectanceToXyz(
  rows: readonly (readonly number[])[],
  firstNm: number,
  stepNm: number,
): Triple3[] {
  const count = rows[0]?.length ?? 0;
  const lastNm = firstNm + stepNm * (count - 1);
  if (!(stepNm > 0 && stepNm <= 20 && firstNm <= 420 && lastNm >= 680)) {
    throw new Problem(
      'measurements.broken',
      `Spectra from ${firstNm} to ${lastNm} nm every ${stepNm} nm cannot be turned into colours.`,
      { remedy: 'Export spectra from 400 to 700 nm or more, every 20 nm or closer.' },
    );
  }
  const weights = spectralWeights(firstNm, stepNm, count);
  const sums = [0, 1, 2].map((j) => weights.reduce((sum, w) => sum + w[j]!, 0));
  return rows.map((row) => {
    const xyz: Triple3 = [0, 0, 0];
    row.forEach((reflectance, i) => {
      for (let j = 0; j < 3; j += 1) xyz[j] = xyz[j]! + reflectance * weights[i]![j]!;
    });
    return xyz.map((v, j) => (v * pcsWhite[j]!) / sums[j]!) as Triple3;
  });
}
