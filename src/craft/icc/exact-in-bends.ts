import { bentCellTest } from './bent-cells.js';
import type { GridLink } from './link.js';
import { createTransform } from './transform.js';

type Samples = Uint8Array | Uint16Array;

/**
 * After a kernel has run: work out again, exactly, the pixels that lie in a link's bent cells.
 *
 * @param input four interleaved channels a pixel, as the kernel had them @param output the kernel's RGB, changed in place
 */
export type MendPixels = (input: Samples, output: Samples, pixels: number) => void;

/** 8-bit colours met before, by a hash of their four bytes: pictures repeat colours far more often than not. */
const rememberedColours = 1 << 16;

/** @returns null when nothing of the link needs it. `bits` are those of the kernel's samples, in and out. */
export function exactInBends(link: GridLink, bits: 8 | 16): MendPixels | null {
  if (link.bends === undefined || link.inputChannels !== 4) return null;
  const { convert } = createTransform(link.bends.chain);
  const isBent = bentCellTest(link);
  const full = bits === 8 ? 255 : 65535;
  const encoded = new Float64Array(4);
  const rgb = new Float64Array(3);
  const known = bits === 8 ? rememberColours() : null;

  return (input, output, pixels) => {
    for (let pixel = 0; pixel < pixels; pixel += 1) {
      const from = pixel * 4;
      const to = pixel * 3;
      if (known?.recall(input, from, output, to)) continue;
      for (let c = 0; c < 4; c += 1) encoded[c] = input[from + c]! / full;
      if (isBent(encoded)) {
        convert(encoded, rgb);
        for (let o = 0; o < 3; o += 1) output[to + o] = Math.round(rgb[o]! * full);
      }
      known?.keep(input, from, output, to);
    }
  };
}

interface ColourMemory {
  /** Writes the answer when the colour is known. */
  recall(input: Samples, from: number, output: Samples, to: number): boolean;
  keep(input: Samples, from: number, output: Samples, to: number): void;
}

/** One place for each hash; a newer colour takes the place of an older one. */
function rememberColours(): ColourMemory {
  const keys = new Uint32Array(rememberedColours);
  const answers = new Uint32Array(rememberedColours);
  // No entry yet: marked in the answer's unused fourth byte.
  const present = 1 << 24;
  const keyOf = (input: Samples, at: number): number =>
    ((input[at]! << 24) | (input[at + 1]! << 16) | (input[at + 2]! << 8) | input[at + 3]!) >>> 0;
  // Multiplicative hashing by 2^32 over the golden ratio (Knuth, The Art of Computer Programming 3, 6.4).
  const placeOf = (key: number): number => Math.imul(key, 0x9e3779b1) >>> 16;
  return {
    recall(input, from, output, to) {
      const key = keyOf(input, from);
      const place = placeOf(key);
      const answer = answers[place]!;
      if (keys[place] !== key || (answer & present) === 0) return false;
      output[to] = answer & 255;
      output[to + 1] = (answer >> 8) & 255;
      output[to + 2] = (answer >> 16) & 255;
      return true;
    },
    keep(input, from, output, to) {
      const key = keyOf(input, from);
      const place = placeOf(key);
      keys[place] = key;
      answers[place] = output[to]! | (output[to + 1]! << 8) | (output[to + 2]! << 16) | present;
    },
  };
}
