import {
  deltaE00,
  labFromLch,
  labFromOklab,
  lchFromLab,
  oklabFromLab,
  type Triple,
  type Triple3,
} from '#craft/colour';
import { hueFamilies, shades } from './palette-words.js';
import type { PaletteColour } from './types.js';

const usualCount = 96;
/** Nearer ones are not worth two swatches. */
const leastApartDeltaE00 = 2.5;
/** Just inside what is reached, so that a swatch is not on the very edge of it. */
const inside = 0.97;

/**
 * A palette over all that is reached: families of hue (equal steps of Oklab hue would crowd the greens; these are where
 * names change), each in steps of lightness and strength, then greys and skin tones. At most `count` colours, none of
 * two alike, every one reached, names plain and all different.
 *
 * @param reaches whether a media-relative Lab (D50, white = 100, 0, 0) is reached
 */
export function choosePalette(
  reaches: (relativeLab: Triple) => boolean,
  count: number = usualCount,
): PaletteColour[] {
  const greyCount = Math.min(count, Math.max(2, Math.min(11, Math.round(0.08 * count))));
  const skinCount = Math.max(0, Math.min(10, Math.round(0.06 * count), count - greyCount));
  const { families, steps } = hueGrid(count - greyCount - skinCount);
  const chosen: PaletteColour[] = [];
  const add = (lab: Triple, name: string): void => {
    if (!reaches(lab)) return;
    if (chosen.some((other) => deltaE00(other.lab, lab) < leastApartDeltaE00)) return;
    chosen.push({ lab, name });
  };
  for (const { name, hueDegrees } of families) {
    const edge = edgeOf(reaches, hueDegrees);
    for (const shade of steps) {
      const lightness = shade.lightness(edge.cuspLightness);
      const chroma = inside * shade.strength * edge.chromaAt(lightness);
      add(labOf(lightness, chroma, hueDegrees), `${shade.word} ${name}`);
    }
  }
  // The lightest grey still differs from bare ground; the darkest reached is called black.
  const black = darkest(reaches);
  for (let i = 0; i < greyCount; i += 1) {
    const lightness = 92 - ((92 - black) * i) / Math.max(1, greyCount - 1);
    add([lightness, 0, 0], i === greyCount - 1 ? 'black' : `grey ${i + 1}`);
  }
  skins(skinCount).forEach((lab, i) => {
    add(lab, `skin ${i + 1}`);
  });
  return chosen;
}

/** As many families and steps as make up a number of colours, families first doubled, then steps. */
function hueGrid(room: number): { families: typeof hueFamilies; steps: typeof shades } {
  let best = { families: 0, steps: 0 };
  for (const families of [6, 8, 12, 16]) {
    const steps = Math.min(shades.length, Math.floor(room / families));
    const worth = families * steps;
    const isBalanced = steps >= 3 || best.steps < 3;
    if (steps > 0 && isBalanced && worth >= best.families * best.steps) best = { families, steps };
  }
  return {
    families: hueFamilies.filter(({ rank }) => rank < best.families),
    steps: shades.filter(({ rank }) => rank < best.steps),
  };
}

interface HueEdge {
  /** L* at which most chroma is reached. */
  readonly cuspLightness: number;
  /** Most Oklab chroma reached at a L*; 0 when not even grey is. */
  chromaAt(lightness: number): number;
}

function edgeOf(reaches: (lab: Triple) => boolean, hueDegrees: number): HueEdge {
  const known = new Map<number, number>();
  const chromaAt = (lightness: number): number => {
    const before = known.get(lightness);
    if (before !== undefined) return before;
    let [low, high] = [0, 0.4];
    if (reaches(labOf(lightness, 0, hueDegrees))) {
      for (let step = 0; step < 8; step += 1) {
        const middle = (low + high) / 2;
        if (reaches(labOf(lightness, middle, hueDegrees))) low = middle;
        else high = middle;
      }
    }
    known.set(lightness, low);
    return low;
  };
  let cuspLightness = 60;
  for (let lightness = 20; lightness <= 95; lightness += 5) {
    if (chromaAt(lightness) > chromaAt(cuspLightness)) cuspLightness = lightness;
  }
  for (const lightness of [cuspLightness - 2.5, cuspLightness + 2.5]) {
    if (chromaAt(lightness) > chromaAt(cuspLightness)) cuspLightness = lightness;
  }
  return { cuspLightness, chromaAt };
}

/** Oklab chroma and hue at a CIELAB lightness; lightness exact for greys, hue constant as Oklab holds it. */
function labOf(lightness: number, chroma: number, hueDegrees: number): Triple3 {
  const oklab = labFromLch([(lightness + 16) / 116, chroma, hueDegrees]);
  return labFromOklab(oklab);
}

/** Oklab hue of a colour, degrees. */
export const oklabHue = (lab: Triple): number => lchFromLab(oklabFromLab(lab))[2];

function darkest(reaches: (lab: Triple) => boolean): number {
  for (let lightness = 0; lightness < 60; lightness += 0.5) if (reaches([lightness, 0, 0])) return lightness;
  return 60;
}

/** From light to deep, along a curve through measured skin as it is often given in CIELAB (from memory). */
function skins(count: number): Triple[] {
  return Array.from({ length: count }, (_, i) => {
    const t = count === 1 ? 0.4 : i / (count - 1);
    const lightness = 84 - 54 * t;
    const hue = ((58 - 12 * t) * Math.PI) / 180;
    const chroma = 16 + 26 * t * (1 - t) * 2 + 2 * t;
    return [lightness, chroma * Math.cos(hue), chroma * Math.sin(hue)];
  });
}
