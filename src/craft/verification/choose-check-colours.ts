import { deltaE76, labFromSrgb, type Triple, type Triple3 } from '#craft/colour';
import { createRandom } from '#craft/numerics';

export type CheckKind = 'colour' | 'neutral' | 'limited';

/** A colour to be printed through a path, media-relative Lab (white = 100, 0, 0). */
export interface CheckColour {
  readonly lab: Triple3;
  /** limited: the path cannot reach it; it is judged apart, against the nearest that the path makes. */
  readonly kind: CheckKind;
}

export interface CheckChoice {
  /** 30 to 90. */
  readonly count: number;
  readonly seed: number;
  /** Whether the path reaches a media-relative colour. */
  readonly reaches: (lab: Triple) => boolean;
}

const fewestNeutrals = 8;
/** Colours within reach are asked for this far inside the surface, where nothing is clipped. */
const margin = 1.06;
const latticeStep = 9;
/** CIELAB distance below which two colours tell the same. */
const leastApart = 5;

/** Light to deep skin, near test charts' (sRGB, common practice; from memory), and blues that prints turn purple. */
const skins: readonly Triple[] = [
  [0.92, 0.77, 0.69],
  [0.77, 0.59, 0.51],
  [0.45, 0.32, 0.27],
];
const deepBlues: readonly Triple[] = [
  [0.08, 0.12, 0.5],
  [0.16, 0.16, 0.62],
];
/** The strongest colours that pictures bring along: where prints give up first. */
const vivid: readonly Triple[] = [
  [0, 1, 0],
  [0, 0, 1],
  [1, 0, 1],
  [0, 1, 1],
  [1, 0, 0],
  [1, 1, 0],
  [0.5, 0, 1],
  [0, 1, 0.5],
  [1, 0.5, 0],
];

/**
 * Neutrals from next to black to next to white (eyes see those first), skin, deep blue, a few colours out of reach, and the
 * rest so that the largest gap within reach is closed first (maximin in CIELAB, Johnson, Moore & Ylvisaker 1990).
 */
export function chooseCheckColours({ count, seed, reaches }: CheckChoice): CheckColour[] {
  const chosen: CheckColour[] = [];
  const neutrals = Math.max(fewestNeutrals, Math.round(0.25 * count));
  for (const lab of neutralsOf(reaches, neutrals)) chosen.push({ lab, kind: 'neutral' });
  const limits = Math.max(2, Math.round(0.1 * count));
  const outside = vivid.map(labFromSrgb).filter((lab) => !reaches(lab));
  for (const lab of outside.slice(0, limits)) chosen.push({ lab, kind: 'limited' });
  for (const rgb of [...skins, ...deepBlues]) {
    const lab = drawnIn(labFromSrgb(rgb), reaches);
    const isNew = lab !== null && chosen.every((one) => deltaE76(one.lab, lab) > leastApart);
    if (isNew) chosen.push({ lab, kind: 'colour' });
  }
  spread(chosen, count, reachedLattice(reaches, seed));
  return chosen.slice(0, count);
}

function neutralsOf(reaches: CheckChoice['reaches'], count: number): Triple3[] {
  let black = 0;
  while (black < 60 && !reaches([black, 0, 0])) black += 0.5;
  const [dark, light] = [black + 1, 97];
  return Array.from({ length: count }, (_, i): Triple3 => [dark + ((light - dark) * i) / (count - 1), 0, 0]);
}

/**
 * The same hue angle with only so much chroma as is reached, at the same lightness or, where that leaves little of it
 * (dark blues on a print that is not dark itself), somewhat lighter; null where nothing is.
 */
function drawnIn(lab: Triple, reaches: CheckChoice['reaches']): Triple3 | null {
  for (const least of [0.4, 0.2]) {
    for (let lift = 0; lift <= 25; lift += 5) {
      for (let share = 1; share > least; share -= 0.05) {
        const less: Triple3 = [lab[0] + lift, share * lab[1], share * lab[2]];
        if (wellReached(less, reaches)) return less;
      }
    }
  }
  return null;
}

const wellReached = ([l, a, b]: Triple, reaches: CheckChoice['reaches']): boolean =>
  reaches([l, a, b]) && reaches([l, margin * a, margin * b]);

function reachedLattice(reaches: CheckChoice['reaches'], seed: number): Triple3[] {
  const random = createRandom(seed);
  const off = (): number => latticeStep * (random.uniform() - 0.5);
  const out: Triple3[] = [];
  for (let l = 6; l < 98; l += latticeStep) {
    for (let a = -100; a <= 100; a += latticeStep) {
      for (let b = -100; b <= 100; b += latticeStep) {
        const lab: Triple3 = [Math.min(97, l + off()), a + off(), b + off()];
        if (Math.hypot(lab[1], lab[2]) > 6 && wellReached(lab, reaches)) out.push(lab);
      }
    }
  }
  return out;
}

function spread(chosen: CheckColour[], count: number, pool: readonly Triple3[]): void {
  const distance = pool.map((lab) =>
    chosen.reduce((least, one) => Math.min(least, deltaE76(lab, one.lab)), Number.POSITIVE_INFINITY),
  );
  while (chosen.length < count && pool.length > 0) {
    const best = distance.reduce((top, d, i) => (d > distance[top]! ? i : top), 0);
    const lab = pool[best]!;
    chosen.push({ lab, kind: 'colour' });
    pool.forEach((other, i) => {
      distance[i] = Math.min(distance[i]!, deltaE76(lab, other));
    });
  }
}
