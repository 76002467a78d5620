import type { Reading, ReadingPatch } from '#contract';
import { formatHex, labFromXyz, srgb8FromLab, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import type { LinearRgb } from '#craft/patchreading';
import type { ReaderMap } from '#craft/reader';
import type { SeenLight } from './kept-reading.js';

/** A patch before its colour is known. */
export type UncolouredPatch = Omit<ReadingPatch, 'lab' | 'sdLab' | 'seenHex'>;

export interface Coloured {
  readonly patches: ReadingPatch[];
  readonly groundLab: Triple3;
  readonly routeStrip: Reading['routeStrip'];
  /** Sound patches whose colour lies outside what the map was learnt on. */
  readonly unknown: number;
}

/** A step of 8 bits in the lights, 0.009, spread evenly: 0.009/√12. No reading is surer. */
const leastSd = 0.0026;
/** Pixels that lie together share their noise (sharpening, the scanner's own optics): about so many count as one. */
const pixelsAlike = 9;

/** The colours of what was seen. */
export function colourLight(light: SeenLight, patches: readonly UncolouredPatch[], map: ReaderMap): Coloured {
  const noise = light.patches.map(({ sdRgb, pixels }, i) => {
    const used = Math.max(1, (pixels * (patches[i]?.usedShare ?? 1)) / pixelsAlike);
    return sdRgb.map((sd, c) => Math.sqrt(Math.max(leastSd, light.sdRgb[c]!) ** 2 + sd ** 2 / used));
  });
  // Each patch, and the same a little lighter in one channel after the other.
  const asked = light.patches.flatMap(({ evenRgb }, i) => [evenRgb, ...moved(evenRgb, noise[i]!)]);
  const told = map.toLab([...asked, light.groundRgb, ...light.routeStrip.map(({ seenRgb }) => seenRgb)]);
  const ground = told[asked.length]!.lab;
  const coloured = patches.map((patch, i): ReadingPatch => {
    const { lab } = told[4 * i]!;
    const steps = [1, 2, 3].map((k) => told[4 * i + k]!.lab);
    const sdLab = [0, 1, 2].map((j) => Math.hypot(...steps.map((step) => step[j]! - lab[j]!)));
    return { ...patch, lab: [...lab], sdLab: sdLab as Triple3, seenHex: hexBeside(lab, ground) };
  });
  return {
    patches: coloured,
    groundLab: [...ground],
    routeStrip: light.routeStrip.map(({ name, deviceRgb }, i) => ({
      name,
      deviceRgb: [...deviceRgb],
      lab: [...told[asked.length + 1 + i]!.lab],
    })),
    unknown: coloured.filter(({ sound }, i) => sound && !told[4 * i]!.known).length,
  };
}

/** By one standard deviation of each channel, inwards at the ends of the reader's range. */
function moved(rgb: LinearRgb, sd: readonly number[]): LinearRgb[] {
  return [0, 1, 2].map(
    (c) => rgb.map((v, k) => (k === c ? v + (v + sd[c]! > 1 ? -sd[c]! : sd[c]!) : v)) as unknown as LinearRgb,
  );
}

/** How a colour looks on a screen to eyes that take the bare ground for white (as media-relative colorimetry does). */
export function hexBeside(lab: Triple, ground: Triple): string {
  const white = xyzFromLab(ground);
  const xyz = xyzFromLab(lab);
  const d50 = xyzFromLab([100, 0, 0]);
  return formatHex(
    srgb8FromLab(labFromXyz([0, 1, 2].map((k) => (xyz[k]! / white[k]!) * d50[k]!) as Triple3)),
  );
}
