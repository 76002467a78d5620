/**
 * Scanners and phones that are not our map: a spectrum goes through a lamp and three broad invented sensitivities, picks
 * up a little of its neighbours' light, is noisy, and is written with 8 bits through a curve. What a reader map is given
 * is what a program gets from such a file; it never sees spectra, so that metamerism is real.
 */
import { srgbToLinear } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import type { LinearRgb } from '#craft/patchreading';
import type { Triple } from './virtual-printer.js';
import { daylightObserver } from './virtual-printer-spectra.js';

export interface VirtualReader {
  readonly name: string;
  /** The bare light of one spectrum: linear, no neighbours, no noise; a perfect white gives 0.93. */
  light(spectrum: readonly number[]): [number, number, number];
  /** Share of the light of the neighbourhood that falls in. */
  readonly flare: number;
  /** Light to this power is what it writes, 0..1. */
  readonly power: number;
  /** One value for each spectrum (mean of some pixels), decoded as sRGB as a program without a profile would. */
  see(spectra: readonly (readonly number[])[], seed: number): LinearRgb[];
}

type Lamp = 'white LED' | 'cold cathode' | 'xenon';

const bump = (nm: number, centre: number, width: number): number =>
  Math.exp(-0.5 * ((nm - centre) / width) ** 2);

const lamps: Record<Lamp, (nm: number) => number> = {
  'white LED': (nm) => 0.75 * bump(nm, 452, 11) + bump(nm, 565, 58) + 0.03,
  'cold cathode': (nm) =>
    0.5 * bump(nm, 436, 9) + 0.35 * bump(nm, 488, 12) + bump(nm, 545, 9) + 0.9 * bump(nm, 611, 8) + 0.12,
  xenon: (nm) => 0.9 + 0.1 * Math.sin(nm / 40),
};

/** Light of so many neighbours on each side in the list falls in. */
const neighbours = 6;
const pixels = 36;

/** @param model moves peaks, widths, flare and curve; any whole number */
export function virtualReader(model: number, lamp: Lamp): VirtualReader {
  const draw = createRandom(6400 + model);
  const jitter = (amount: number): number => (2 * draw.uniform() - 1) * amount;
  const bands: Triple[] = [
    [602 + jitter(10), 34 + jitter(6), 0.05],
    [538 + jitter(8), 38 + jitter(6), 0.07],
    [458 + jitter(8), 28 + jitter(5), 0.03],
  ];
  const { wavelengths } = daylightObserver;
  const weights = bands.map(([peak, width, skirt]) => {
    const row = wavelengths.map(
      (nm) => lamps[lamp](nm) * (bump(nm, peak, width) + skirt * bump(nm, 560, 110)),
    );
    const sum = row.reduce((total, v) => total + v, 0);
    return row.map((v) => (0.93 * v) / sum);
  });
  const flare = 0.015 + 0.01 * draw.uniform();
  // The reader's own curve is not quite sRGB's.
  const power = 1 / (2.15 + jitter(0.2));
  const lightOf = (spectrum: readonly number[]): [number, number, number] =>
    weights.map((row) => row.reduce((sum, w, i) => sum + w * spectrum[i]!, 0)) as [number, number, number];
  return {
    name: `reader ${model}, ${lamp}`,
    flare,
    power,
    light: lightOf,
    see(spectra, seed) {
      const random = createRandom(seed);
      const light = spectra.map(lightOf);
      return light.map((own, at) =>
        own.map((v, c) => {
          const near = light.slice(Math.max(0, at - neighbours), at + neighbours + 1);
          const around = near.reduce((sum, one) => sum + one[c]!, 0) / near.length;
          const lit = (1 - flare) * v + flare * around;
          let sum = 0;
          for (let k = 0; k < pixels; k += 1) {
            const noisy = Math.max(0, lit + (0.003 + 0.012 * Math.sqrt(lit)) * 0.5 * random.normal());
            sum += srgbToLinear(Math.min(255, Math.round(255 * noisy ** power)) / 255);
          }
          return sum / pixels;
        }),
      ) as unknown as LinearRgb[];
    },
  };
}
