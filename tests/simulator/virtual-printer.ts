/**
 * Printers that are not our model: device RGB 0..1 → true Lab (D50, 2°), without noise.
 *
 * The halftone ones are the printer-class CMYK profile built into libvips, evaluated by Little CMS; they differ
 * in how the driver gets from RGB to ink. The dye ones mix inks by absorbing spectra (Bouguer–Lambert), a
 * continuous-tone print on a white ground, with internal reflection (Saunderson, J. Opt. Soc. Am. 32, 1942).
 * All shapes, curves and spectra are invented; only the evaluation is somebody else's.
 */
import { labFromXyz } from '#craft/colour';
import { createRandom } from '#craft/numerics';
import { libvipsCmyk } from './virtual-printer-icc.js';
import { daylightObserver } from './virtual-printer-spectra.js';

export type Triple = readonly [number, number, number];

export interface VirtualPrinter {
  readonly name: string;
  print(rgb: readonly Triple[]): [number, number, number][];
}

/** A printer of which not only colours but reflectances are known, at `daylightObserver.wavelengths`. */
export interface SpectralPrinter extends VirtualPrinter {
  reflect(rgb: readonly Triple[]): number[][];
}

/** Driver-like tone: how much ink a channel asks for, 0..1 → 0..1, monotone. */
const tone = (ink: number, gamma: number, bend: number): number => {
  const v = ink ** gamma;
  return v + bend * v * (1 - v) * (1 - 2 * v) + 0.15 * bend * Math.sin(3 * Math.PI * v) * v * (1 - v);
};

/** RGB straight to CMY, no black ink. */
export async function halftoneCmy(): Promise<VirtualPrinter> {
  const cmyk = await libvipsCmyk();
  return {
    name: 'halftone CMY',
    print: (rgb) =>
      cmyk.toLab(
        rgb.map(([r, g, b]) => [tone(1 - r, 1.25, 0.4), tone(1 - g, 1.1, -0.3), tone(1 - b, 0.9, 0.2), 0]),
      ),
  };
}

/** Driver RGB to CMYK, black taking over part of the grey component. */
export function inksOf([r, g, b]: Triple): [number, number, number, number] {
  const c = tone(1 - r, 1.3, 0.3);
  const m = tone(1 - g, 1.2, 0.1);
  const y = tone(1 - b, 1.15, -0.2);
  const grey = Math.min(c, m, y);
  const k = 0.9 * Math.max(0, (grey - 0.25) / 0.75) ** 1.8;
  return [c - 0.6 * k, m - 0.6 * k, y - 0.6 * k, k];
}

/** RGB to CMY with black taking over part of the grey component. */
export async function halftoneCmyk(): Promise<VirtualPrinter> {
  const cmyk = await libvipsCmyk();
  return { name: 'halftone CMYK', print: (rgb) => cmyk.toLab(rgb.map(inksOf)) };
}

/** A driver that takes RGB as sRGB and converts by the profile's own perceptual tables. */
export async function driverSrgb(): Promise<VirtualPrinter> {
  const cmyk = await libvipsCmyk();
  return { name: 'sRGB driver', print: (rgb) => cmyk.throughDriver(rgb) };
}

/** Absorbing dyes in a clear coat, densities adding up; `variant` moves peaks, strengths and curves. */
export function dyeOnCoating(variant = 0): SpectralPrinter {
  const draw = createRandom(7100 + variant);
  const jitter = (amount: number): number => (variant === 0 ? 0 : (2 * draw.uniform() - 1) * amount);
  const peaks: Triple[] = [
    [632 + jitter(12), 62, 2.3 + jitter(0.4)],
    [548 + jitter(8), 44, 2.1 + jitter(0.4)],
    [444 + jitter(8), 40, 1.9 + jitter(0.4)],
  ];
  const gammas = [1.5 + jitter(0.5), 1.3 + jitter(0.5), 1.4 + jitter(0.5)];
  const bends = [0.25 + jitter(0.4), -0.2 + jitter(0.4), 0.1 + jitter(0.4)];
  const name = variant === 0 ? 'dye on coating' : `dye on coating, variant ${variant}`;
  return coatOf(name, peaks, 150, gammas, bends);
}

/** Colourants of another make on another ground, as of a reference target: narrower bands elsewhere. Invented. */
export function otherColourants(set = 0): SpectralPrinter {
  const draw = createRandom(8200 + set);
  const jitter = (amount: number): number => (2 * draw.uniform() - 1) * amount;
  const peaks: Triple[] = [
    [662 + jitter(10), 44 + jitter(6), 2.4],
    [538 + jitter(8), 36 + jitter(5), 2.3],
    [436 + jitter(8), 33 + jitter(5), 2.2],
  ];
  return coatOf(`other colourants, set ${set}`, peaks, 130, [1.2, 1.2, 1.2], [0.1, 0.1, 0.1]);
}

function coatOf(
  name: string,
  peaks: readonly Triple[],
  secondaryNm: number,
  gammas: readonly number[],
  bends: readonly number[],
): SpectralPrinter {
  const { wavelengths, weights } = daylightObserver;
  const density = peaks.map(([peak, width, strength]) =>
    wavelengths.map((nm) => {
      const main = Math.exp(-0.5 * ((nm - peak) / width) ** 2);
      const secondary = 0.16 * Math.exp(-0.5 * ((nm - (peak - secondaryNm)) / 70) ** 2);
      return strength * (main + secondary + 0.03);
    }),
  );
  const ground = wavelengths.map((nm) => 0.9 - 0.1 * Math.exp(-(nm - 380) / 40));
  const outer = 0.04;
  const inner = 0.5;
  const reflect = (rgb: readonly Triple[]): number[][] =>
    rgb.map((device) => {
      const ink = device.map((v, i) => tone(1 - v, gammas[i]!, bends[i]!));
      // Dyes crowd each other out: the last ink on a full coat takes less.
      const crowd = 1 - 0.12 * (ink[0]! * ink[1]! + ink[1]! * ink[2]! + ink[0]! * ink[2]!);
      return wavelengths.map((_, w) => {
        let d = 0;
        for (let i = 0; i < 3; i += 1) d += crowd * ink[i]! * density[i]![w]!;
        const body = ground[w]! * 10 ** -d;
        return 0.3 * outer + ((1 - outer) * (1 - inner) * body) / (1 - inner * body);
      });
    });
  return {
    name,
    reflect,
    print: (rgb) =>
      reflect(rgb).map((seen) => {
        let x = 0;
        let y = 0;
        let z = 0;
        seen.forEach((v, w) => {
          const [wx, wy, wz] = weights[w]!;
          x += v * wx;
          y += v * wy;
          z += v * wz;
        });
        return labFromXyz([x / 100, y / 100, z / 100]);
      }),
  };
}

/** Reads patches with noise; `deltaE` is the mean CIELAB distance it adds (0.4 → 0.25 a coordinate). */
export function measured(lab: readonly Triple[], deltaE: number, seed: number): [number, number, number][] {
  const random = createRandom(seed);
  // The mean length of a three-dimensional normal vector is 2·√(2/π) standard deviations (Maxwell).
  const sd = deltaE / (2 * Math.sqrt(2 / Math.PI));
  return lab.map(([l, a, b]) => [
    l + sd * random.normal(),
    a + sd * random.normal(),
    b + sd * random.normal(),
  ]);
}

/** Device colours nobody fitted on: uniform in the cube, some on its faces, some neutral. */
export function heldOut(count: number, seed: number): [number, number, number][] {
  const random = createRandom(seed);
  return Array.from({ length: count }, (_, i) => {
    const rgb: [number, number, number] = [random.uniform(), random.uniform(), random.uniform()];
    if (i % 5 === 1) rgb[random.integer(3)] = random.integer(2);
    if (i % 10 === 3) {
      const v = rgb[0];
      return [v, clamp(v + 0.04 * (rgb[1] - 0.5)), clamp(v + 0.04 * (rgb[2] - 0.5))];
    }
    return rgb;
  });
}

const clamp = (v: number): number => Math.min(1, Math.max(0, v));
