import type { Point } from '#craft/reading';
import { median } from './picture.js';
import { biweights, dot, weightedFit } from './polynomial.js';
import type { LinearRgb } from './types.js';

/** A patch as the evenness is told from: its colour against the bare ground. */
export interface LikePatch {
  readonly at: Point;
  readonly deviceRgb: readonly number[];
  readonly rgb: LinearRgb;
}

/** One colour in all its places. */
export interface Likes {
  /** A row of the polynomial for each place. */
  readonly rows: readonly (readonly number[])[];
  /** The channels in which it takes enough light. */
  readonly channels: readonly {
    /** Median density, natural logarithm of ground over patch. */
    readonly density: number;
    /** For each place: logarithm of its density, and its weight. */
    readonly values: readonly number[];
    readonly weights: readonly number[];
  }[];
}

/** Channels in which a colour takes less than a tenth of the light tell nothing of the dye. */
const leastDensity = 0.1;
const fewestLikes = 3;

/** Colours with at least three patches, weighted so that scatter in light counts alike. */
export function likesWith(
  patches: readonly LikePatch[],
  ground: LinearRgb,
  basis: (place: Point) => number[],
): Likes[] {
  const members = new Map<string, LikePatch[]>();
  for (const patch of patches) {
    const key = patch.deviceRgb.join();
    members.set(key, [...(members.get(key) ?? []), patch]);
  }
  return [...members.values()].flatMap((likes): Likes[] => {
    if (likes.length < fewestLikes) return [];
    const channels = [0, 1, 2].flatMap((c) => {
      const densities = likes.map(({ rgb }) => -Math.log(Math.max(1e-3, rgb[c]! / ground[c]!)));
      if (!densities.every((d) => d > leastDensity)) return [];
      return [
        {
          density: median(densities),
          values: densities.map((d) => Math.log(d)),
          // An error of the light is one of density that grows as the light goes: 1 / share.
          weights: densities.map((d) => (d * (Math.exp(-d) + 0.02)) ** 2),
        },
      ];
    });
    return channels.length > 0 ? [{ rows: likes.map(({ at }) => basis(at)), channels }] : [];
  });
}

/** A row and, times the density, the same row again. */
export const withDensity = (row: readonly number[], density: number): number[] => [
  ...row,
  ...row.map((v) => v * density),
];

export interface Term {
  readonly row: readonly number[];
  readonly value: number;
  readonly weight: number;
}

/**
 * Every patch and channel with the mean of its colour and channel taken out, row and value alike, so that the
 * constants need not be fitted (Frisch & Waugh, Econometrica 1, 1933).
 * @param places which place's row each patch is given; its own when left out
 */
export function centredTerms(
  likes: readonly Likes[],
  unknowns: number,
  robust: readonly number[] | null,
  places?: readonly (readonly number[])[],
): Term[] {
  const terms: Term[] = [];
  let at = 0;
  likes.forEach(({ rows, channels }, k) => {
    for (const { density, values, weights } of channels) {
      const whole = rows.map((_, i) =>
        withDensity(rows[places ? places[k]![i]! : i]!, density).slice(0, unknowns),
      );
      const used = weights.map((weight, i) => weight * (robust ? robust[at + i]! : 1));
      at += values.length;
      const total = used.reduce((sum, w) => sum + w, 0);
      const mean = (pick: (i: number) => number): number =>
        total > 0 ? used.reduce((sum, w, i) => sum + w * pick(i), 0) / total : 0;
      const middle = mean((i) => values[i]!);
      const means = Array.from({ length: unknowns }, (_, u) => mean((i) => whole[i]![u]!));
      values.forEach((value, i) => {
        terms.push({
          row: whole[i]!.map((v, u) => v - means[u]!),
          value: value - middle,
          weight: used[i]!,
        });
      });
    }
  });
  return terms;
}

/** Robust least squares over all likes; null when they do not tell. */
export function fitLikes(likes: readonly Likes[], unknowns: number): Float64Array | null {
  let robust = centredTerms(likes, unknowns, null).map(() => 1);
  let fit: Float64Array | null = null;
  for (let round = 0; round < 8; round += 1) {
    const terms = centredTerms(likes, unknowns, robust);
    fit = fitTerms(terms);
    if (!fit) return null;
    const found = fit;
    const plain = centredTerms(likes, unknowns, null);
    // In units of light, so that all patches' scatter is alike.
    robust = biweights(
      plain.map(({ row, value, weight }) => (value - dot(found, row)) * Math.sqrt(weight)),
      0.001,
    );
  }
  return fit;
}

export function fitTerms(terms: readonly Term[]): Float64Array | null {
  return weightedFit(
    terms.map(({ row }) => row),
    terms.map(({ value }) => value),
    terms.map(({ weight }) => weight),
  );
}
