/**
 * The halftone CMYK printer with reflectances: its colours are what Little CMS says of libvips's CMYK profile, on a
 * ground of its own; the spectra are three invented dyes and a black, in such amounts that they give just these colours.
 * How much black there is comes from the driver, so that like colours of unlike spectra are real.
 */
import { labFromXyz, xyzFromLab } from '#craft/colour';
import { halftoneCmyk, inksOf, type SpectralPrinter, type Triple } from './virtual-printer.js';
import { daylightObserver } from './virtual-printer-spectra.js';

const { wavelengths, weights } = daylightObserver;

const band = (nm: number, peak: number, width: number): number => Math.exp(-0.5 * ((nm - peak) / width) ** 2);
/** Optical density of a full coat. */
const dyes = [
  [640, 58, 1.6],
  [543, 36, 1.6],
  [442, 36, 1.6],
].map(([peak, width, strength]) =>
  wavelengths.map((nm) => strength! * (band(nm, peak!, width!) + 0.08 * band(nm, peak! - 140, 60) + 0.015)),
);
const black = wavelengths.map((nm) => 1.35 - 0.1 * band(nm, 700, 60));
/** A white coat, a little warm. */
const ground = wavelengths.map((nm) => 0.87 - 0.1 * Math.exp(-(nm - 380) / 30));

const xyzOf = (spectrum: readonly number[]): [number, number, number] => {
  const sum: [number, number, number] = [0, 0, 0];
  for (let w = 0; w < spectrum.length; w += 1) {
    for (let j = 0; j < 3; j += 1) sum[j]! += spectrum[w]! * weights[w]![j]! * 0.01;
  }
  return sum;
};
const groundXyz = xyzOf(ground);
const whiteXyz = xyzFromLab([100, 0, 0]);

/** @param strength of the three colours as the inks are now, 1 = as they were: another batch takes less or more light */
export async function halftoneWithSpectra(strength: Triple = [1, 1, 1]): Promise<SpectralPrinter> {
  const printer = await halftoneCmyk();
  const spectrumOf = (device: Triple, lab: Triple): number[] => {
    const wanted = xyzFromLab(lab).map((v, j) => (v / whiteXyz[j]!) * groundXyz[j]!);
    const [c, m, y, k] = inksOf(device);
    const amounts = solve(wanted, [c, m, y], 0.8 * k);
    return mix(
      amounts.map((amount, i) => amount * strength[i]!),
      0.8 * k,
    );
  };
  const reflect = (rgb: readonly Triple[]): number[][] => {
    const lab = printer.print(rgb);
    return rgb.map((device, i) => spectrumOf(device, lab[i]!));
  };
  return {
    name: 'halftone CMYK with spectra',
    reflect,
    print: (rgb) => reflect(rgb).map((spectrum) => labFromXyz(xyzOf(spectrum))),
  };
}

function mix(amounts: readonly number[], blackAmount: number): number[] {
  return wavelengths.map((_, w) => {
    let density = blackAmount * black[w]!;
    for (let i = 0; i < 3; i += 1) density += amounts[i]! * dyes[i]![w]!;
    return ground[w]! * 10 ** -density;
  });
}

/** Newton's method on the logarithms of XYZ, which hardly bend in the amounts. */
function solve(wanted: readonly number[], start: readonly number[], blackAmount: number): number[] {
  let amounts = [...start];
  for (let round = 0; round < 30; round += 1) {
    const spectrum = mix(amounts, blackAmount);
    const xyz = xyzOf(spectrum);
    const off = xyz.map((v, j) => Math.log(wanted[j]! / v));
    if (Math.max(...off.map(Math.abs)) < 1e-9) break;
    const slopes = dyes.map((dye) => {
      const step = xyzOf(spectrum.map((v, w) => -Math.LN10 * v * dye[w]!));
      return step.map((v, j) => v / xyz[j]!);
    });
    const step = solve3(slopes, off);
    amounts = amounts.map((v, i) => v + Math.max(-0.5, Math.min(0.5, step[i]!)));
  }
  return amounts;
}

/** Σᵢ xᵢ·columns[i] = right, by Cramer's rule. */
function solve3(columns: readonly (readonly number[])[], right: readonly number[]): number[] {
  const whole = determinant(columns);
  return columns.map((_, i) => determinant(columns.map((column, j) => (i === j ? right : column))) / whole);
}

const determinant = ([a, b, c]: readonly (readonly number[])[]): number =>
  a![0]! * (b![1]! * c![2]! - b![2]! * c![1]!) -
  b![0]! * (a![1]! * c![2]! - a![2]! * c![1]!) +
  c![0]! * (a![1]! * b![2]! - a![2]! * b![1]!);

/** A spectrum where the press gave `dye` times as much (1 = as it should): Bouguer's law over the bare ground. */
export function withDye(
  spectrum: readonly number[],
  bare: readonly number[],
  dye: number,
): { spectrum: number[]; lab: [number, number, number] } {
  const pressed = spectrum.map((v, w) => bare[w]! * (v / bare[w]!) ** dye);
  return { spectrum: pressed, lab: labFromXyz(xyzOf(pressed)) };
}
