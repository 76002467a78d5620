import {
  deltaE00,
  labFromLch,
  labFromOklab,
  lchFromLab,
  oklabFromLab,
  type Triple,
  type Triple3,
} from '#craft/colour';
import type { BesideWhite } from './beside-white.js';
import type { KnownPath } from './types.js';

/** A colour that prints as it looks, near one that does not. Lab absolute. */
export interface ColourNeighbour {
  readonly hex: string;
  readonly lab: Triple3;
  readonly deltaE00FromWanted: number;
  readonly why: string;
}

/** Colours nearer to each other than this need not both be offered. */
const alikeDeltaE00 = 1.5;
/** Steps of Oklab lightness and chroma in which a way is searched. */
const steps = 80;
/** Of the strongest reached, a little less: the surface itself is found only so well. */
const inside = 0.985;

/** Along the hue of the wanted colour, kept in Oklab, where hue runs straighter than in CIELAB. Nearest first. */
export function alternativesFor(
  { inverse }: KnownPath,
  wanted: Triple,
  comesOut: Triple,
  beside: BesideWhite,
): ColourNeighbour[] {
  const relativeWanted = beside.relative(wanted);
  const [light, chroma, hue] = lchFromLab(oklabFromLab(relativeWanted));
  const reached = (l: number, c: number): boolean => inverse.inGamutRelative(colour(l, c, hue));
  const found: { lab: Triple3; why: string }[] = [
    { lab: beside.relative(comesOut), why: 'The nearest of the same hue: what is printed as it is.' },
  ];
  const offer = (l: number, c: number, why: string): void => {
    found.push({ lab: colour(l, c, hue), why });
  };

  const weaker = firstReached((k) => reached(light, chroma * (1 - k / steps)));
  if (weaker !== null)
    offer(light, inside * chroma * (1 - weaker / steps), 'As light as wanted, but less strong.');
  const lighter = firstReached((k) => light + k / steps <= 1 && reached(light + k / steps, chroma));
  if (lighter !== null) offer(light + lighter / steps, inside * chroma, 'As strong as wanted, but lighter.');
  const darker = firstReached((k) => light - k / steps >= 0 && reached(light - k / steps, chroma));
  if (darker !== null) offer(light - darker / steps, inside * chroma, 'As strong as wanted, but darker.');
  const strongest = strongestOf(reached, chroma);
  if (strongest !== null) {
    offer(strongest.light, inside * strongest.chroma, 'The strongest colour of this hue that prints.');
  }

  const neighbours: ColourNeighbour[] = [];
  for (const { lab, why } of found) {
    if (neighbours.some((one) => deltaE00(beside.relative(one.lab), lab) < alikeDeltaE00)) continue;
    const absolute = beside.absolute(lab);
    neighbours.push({
      hex: beside.hex(absolute),
      lab: absolute,
      deltaE00FromWanted: deltaE00(relativeWanted, lab),
      why,
    });
  }
  return neighbours.sort((a, b) => a.deltaE00FromWanted - b.deltaE00FromWanted);
}

function firstReached(test: (k: number) => boolean): number | null {
  for (let k = 1; k <= steps; k += 1) if (test(k)) return k;
  return null;
}

/** The most chroma over all lightnesses of the hue, never more than was wanted. */
function strongestOf(
  reached: (light: number, chroma: number) => boolean,
  most: number,
): { light: number; chroma: number } | null {
  let best: { light: number; chroma: number } | null = null;
  for (let l = 0.02; l < 1; l += 0.03) {
    let [low, high] = [0, most];
    if (!reached(l, 0.002)) continue;
    for (let round = 0; round < 9; round += 1) {
      const middle = (low + high) / 2;
      if (reached(l, middle)) low = middle;
      else high = middle;
    }
    if (low > (best?.chroma ?? 0)) best = { light: l, chroma: low };
  }
  return best;
}

/** Oklab's own lightness and chroma along a hue. */
const colour = (light: number, chroma: number, hue: number): Triple3 =>
  labFromOklab(labFromLch([light, chroma, hue]));
