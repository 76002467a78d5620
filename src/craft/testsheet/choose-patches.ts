import { labFromSrgb } from '#craft/colour';
import { createRandom, type Random } from '#craft/numerics';
import { Problem } from '#craft/problem';

/** Why a patch is on the sheet. */
export type PatchPurpose = 'corner' | 'again' | 'neutral' | 'dark' | 'skin' | 'deep-blue' | 'spread';

export interface ChosenPatch {
  /** Device RGB 0..1, on the 8-bit codes so that every file format carries it exactly. */
  readonly rgb: readonly [number, number, number];
  readonly purpose: PatchPurpose;
}

export const patchCountLimits = { fewest: 20, most: 2000 } as const;

type Rgb = [number, number, number];

/**
 * Device colours for a chart of exactly `count` patches: the eight corners, some colours again as a control, the
 * neutrals that eyes judge first, darks, skin and deep blues, and the rest spread so that the largest gap in a
 * space between device and appearance is closed first (maximin, Johnson, Moore & Ylvisaker 1990). The order is
 * by worth: any beginning of the list is a chart too. Shuffling for the sheet is the layout's business.
 * @param seed the same seed and count give the same patches
 * @throws Problem `request.invalid` for a count outside 20..2000
 */
export function choosePatches(count: number, seed: number): ChosenPatch[] {
  if (!Number.isInteger(count) || count < patchCountLimits.fewest || count > patchCountLimits.most) {
    throw new Problem('request.invalid', `A chart of ${count} patches cannot be made.`, {
      remedy: `Choose a whole number from ${patchCountLimits.fewest} to ${patchCountLimits.most}.`,
    });
  }
  const random = createRandom(seed);
  const chosen: ChosenPatch[] = [];
  const seen = new Set<string>();
  const add = (rgb: Rgb, purpose: PatchPurpose, again = false): void => {
    if (chosen.length >= count) return;
    const exact = rgb.map((v) => Math.round(255 * Math.min(1, Math.max(0, v))) / 255) as Rgb;
    const key = exact.join();
    if (seen.has(key) && !again) return;
    seen.add(key);
    chosen.push({ rgb: exact, purpose });
  };

  for (let k = 7; k >= 0; k -= 1) add([k & 1, (k >> 1) & 1, (k >> 2) & 1], 'corner');
  const room = count - chosen.length;
  for (const v of evenly(Math.round(Math.min(24, 2 + room / 12)))) add([v, v, v], 'neutral');
  const again = count < 200 ? Math.floor(count / 50) : 12 + Math.floor((count - 200) / 30);
  for (let i = 0; i < again; i += 1) add(repeated[i % repeated.length]!, 'again', true);
  // Small charts need every patch for the whole; the model of a large one gains little from one patch more.
  const special = count < 80 ? 0 : Math.round(room * 0.03);
  spreadIn(darks, special, 'dark', random, add);
  spreadIn(skins, special, 'skin', random, add);
  spreadIn(deepBlues, special, 'deep-blue', random, add);
  spread(chosen, count, random, add);
  return chosen;
}

/** Printed more than once: what differs between them is reading and press, not colour. Paper white first. */
const repeated: readonly Rgb[] = [
  [1, 1, 1],
  [0, 0, 0],
  [1, 0, 0],
  [0, 0, 1],
];

/** Inner steps of 0..1. */
const evenly = (steps: number): number[] => Array.from({ length: steps }, (_, i) => (i + 1) / (steps + 1));

type Region = (random: Random) => Rgb;
const near = (random: Random, centre: Rgb, reach: number): Rgb =>
  centre.map((v) => v + reach * (2 * random.uniform() - 1)) as Rgb;

const darks: Region = (random) => near(random, [0.12, 0.12, 0.12], 0.12);
/** Light to deep skin lies along a line in sRGB; common practice, no standard is meant. */
const skins: Region = (random) => {
  const t = random.uniform();
  return near(random, [0.93 - 0.6 * t, 0.76 - 0.58 * t, 0.66 - 0.55 * t], 0.05);
};
/** Where prints turn purple and CIELAB bends hue. */
const deepBlues: Region = (random) => near(random, [0.14, 0.14, 0.6], 0.15);

type Add = (rgb: Rgb, purpose: PatchPurpose, again?: boolean) => void;

function spreadIn(region: Region, count: number, purpose: PatchPurpose, random: Random, add: Add): void {
  const own: Float64Array[] = [];
  for (let i = 0; i < count; i += 1) {
    let best: Rgb = region(random);
    let bestDistance = -1;
    for (let tries = 0; tries < 24; tries += 1) {
      const rgb = region(random);
      const place = placeOf(rgb);
      const distance = own.reduce((least, other) => Math.min(least, apart(place, other)), 1);
      if (distance > bestDistance) {
        bestDistance = distance;
        best = rgb;
      }
    }
    own.push(placeOf(best));
    add(best, purpose);
  }
}

/** Greedy maximin over a fixed pool, each candidate's distance to the chosen kept up to date. */
function spread(chosen: readonly ChosenPatch[], count: number, random: Random, add: Add): void {
  const pool = candidates(Math.max(3000, 6 * count), random);
  const places = pool.map(placeOf);
  const distance = new Float64Array(pool.length).fill(Number.POSITIVE_INFINITY);
  const approach = (rgb: readonly number[]): void => {
    const place = placeOf(rgb);
    for (let i = 0; i < places.length; i += 1) {
      distance[i] = Math.min(distance[i]!, apart(place, places[i]!));
    }
  };
  for (const patch of chosen) approach(patch.rgb);
  while (chosen.length < count) {
    let best = 0;
    for (let i = 1; i < pool.length; i += 1) if (distance[i]! > distance[best]!) best = i;
    const before = chosen.length;
    add(pool[best]!, 'spread');
    if (chosen.length > before) approach(chosen.at(-1)!.rgb);
    distance[best] = -1;
  }
}

/** Uniform in the cube; maximin itself draws patches to the faces, where a model must not guess. */
function candidates(count: number, random: Random): Rgb[] {
  return Array.from({ length: count }, () => [random.uniform(), random.uniform(), random.uniform()] as Rgb);
}

/** Device values, and a little of what they would look like on a screen: differences count in both. */
function placeOf(rgb: readonly number[]): Float64Array {
  const [r, g, b] = [rgb[0]!, rgb[1]!, rgb[2]!];
  const lab = labFromSrgb([r, g, b]);
  return Float64Array.of(r, g, b, (0.2 * lab[0]) / 100, (0.15 * lab[1]) / 100, (0.15 * lab[2]) / 100);
}

function apart(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < 6; i += 1) sum += (a[i]! - b[i]!) ** 2;
  return Math.sqrt(sum);
}
