/** Ways from a reader's light to colour, on the same virtual scanners, judged on prints nobody learnt from. */
import { deltaE00, type Triple } from '#craft/colour';
import type { MapError, ReaderMap, ReaderSample } from '#craft/reader';
import { choosePatches } from '#craft/testsheet';
import { heldOut, measured, type SpectralPrinter } from './virtual-printer.js';
import type { VirtualReader } from './virtual-reader.js';

export interface Pairing {
  readonly samples: ReaderSample[];
  /** Without the instrument's noise. */
  readonly truth: readonly Triple[];
}

/** What a reader sees of device colours, beside what an instrument (0.4 ΔE*ab of noise) measures. */
export function pairing(
  printer: SpectralPrinter,
  reader: VirtualReader,
  device: readonly Triple[],
  seed: number,
): Pairing {
  const seen = reader.see(printer.reflect(device), seed);
  const truth = printer.print(device);
  const lab = measured(truth, 0.4, seed + 1);
  return {
    samples: seen.map((rgb, i) => ({ rgb, lab: lab[i]!, name: `patch ${i + 1}` })),
    truth,
  };
}

/** Device colours of a chart of the same inks, and of colours to judge on. */
export const chartColours = (count: number, seed: number): Triple[] =>
  choosePatches(count, seed).map(({ rgb }) => rgb);
export const judgedColours = (count: number, seed: number): Triple[] => heldOut(count, seed);

export function errorsOf(map: Pick<ReaderMap, 'toLab'>, judged: Pairing): number[] {
  return map
    .toLab(judged.samples.map(({ rgb }) => rgb))
    .map(({ lab }, i) => deltaE00(lab, judged.truth[i]!))
    .sort((a, b) => a - b);
}

export function summary(errors: readonly number[]): Omit<MapError, 'restsOn'> {
  return {
    meanDeltaE00: errors.reduce((sum, v) => sum + v, 0) / errors.length,
    p95DeltaE00: errors[Math.floor(0.95 * errors.length)]!,
  };
}
