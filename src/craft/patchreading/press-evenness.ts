import type { Point } from '#craft/reading';
import type { ChartLayout } from '#craft/testsheet';
import { median } from './picture.js';
import { biweights, dot, weightedFit } from './polynomial.js';
import type { Evenness, LinearRgb } from './types.js';

/** A patch as the evenness is told from: its colour against the bare ground. */
export interface LikePatch {
  readonly at: Point;
  readonly deviceRgb: readonly number[];
  readonly rgb: LinearRgb;
}

export interface DyeField {
  readonly evenness: Evenness;
  /**
   * Dye at a place beside the sheet's mean, for a colour of such a density (natural logarithm of ground over patch);
   * 1 everywhere when no unevenness is known.
   */
  dyeAt(place: Point, density: number): number;
}

/** Channels in which a colour takes less than a tenth of the light tell nothing of the dye. */
const leastDensity = 0.1;
/** Least unevenness, from least to most dye, that is worth speaking of. */
const leastRange = 0.015;

/** At which density the evenness is stated: a middle grey's or so. */
const statedDensity = 1;

/**
 * Where the dye went thinner or thicker. Of patches that were printed alike, the density at a place is taken as that of
 * the colour times a smooth factor of the place, so its logarithm is a constant for each colour and channel plus a
 * second-degree polynomial: the constants are taken out by centring each group (Frisch & Waugh, Econometrica 1, 1933),
 * the rest is one robust least-squares fit. Where full colours suffer otherwise than light ones (bare specks rather
 * than thin dye), a second polynomial times the density is added. Each is kept only when an F-test finds that it
 * explains more than chance (0.1 %).
 */
export function dyeField(layout: ChartLayout, patches: readonly LikePatch[], ground: LinearRgb): DyeField {
  const { area } = layout;
  const basis = ({ x, y }: Point): number[] => {
    const u = (2 * (x - area.xMm)) / area.widthMm - 1;
    const v = (2 * (y - area.yMm)) / area.heightMm - 1;
    return [u, v, u * u - 1 / 3, v * v - 1 / 3, u * v];
  };
  const groups = groupsOf(patches, ground, basis);
  const plain = robustFit(groups, places);
  const full = plain && robustFit(groups, places * 2);
  const degrees = groups.flat().length - groups.length - places;
  let fit: Float64Array | null = null;
  if (plain && full && degrees >= 8 + places) {
    // Every sum of squares is taken with the weights of the fullest fit, so that they can be compared.
    const none = squares(groups, new Float64Array(places * 2), full.robust);
    const one = squares(groups, padded(plain.fit), full.robust);
    const two = squares(groups, full.fit, full.robust);
    const left = degrees - places;
    if (isMore(one, two, left)) fit = full.fit;
    else if (isMore(none, one, degrees)) fit = padded(plain.fit);
  }
  const raw = (place: Point, density: number): number =>
    fit ? dot(fit, withDensity(basis(place), density)) : 0;
  const all = layout.patches.map(({ rect }) => middleOf(rect));
  const meanAt = (density: number): number =>
    all.reduce((sum, place) => sum + raw(place, density), 0) / Math.max(1, all.length);
  const [mean0, mean1] = [meanAt(0), meanAt(1)];
  const field = (place: Point, density: number): number =>
    Math.exp(raw(place, density) - mean0 - (mean1 - mean0) * density);
  const stated = all.map((place) => field(place, statedDensity));
  const isKnown = fit !== null && Math.max(...stated) - Math.min(...stated) >= leastRange;
  const dyeAt = (place: Point, density: number): number =>
    isKnown ? field(place, Math.min(mostDensity, Math.max(0, density))) : 1;
  return { evenness: evennessOf(layout, isKnown, (place) => dyeAt(place, statedDensity)), dyeAt };
}

/** Unknowns of one polynomial. */
const places = 5;
/** Densities above this are hardly ever measured, so the law is not carried further. */
const mostDensity = 3;

const withDensity = (row: readonly number[], density: number): number[] => [
  ...row,
  ...row.map((v) => v * density),
];
const padded = (fit: Float64Array): Float64Array => {
  const longer = new Float64Array(places * 2);
  longer.set(fit);
  return longer;
};

function robustFit(
  groups: readonly Term[][],
  unknowns: number,
): { readonly fit: Float64Array; readonly robust: readonly number[] } | null {
  let robust = groups.flat().map(() => 1);
  let fit: Float64Array | null = null;
  for (let round = 0; round < 8; round += 1) {
    const centred = centre(groups, robust).map(({ row, ...rest }) => ({
      ...rest,
      row: row.slice(0, unknowns),
    }));
    fit = weightedFit(
      centred.map(({ row }) => row),
      centred.map(({ value }) => value),
      centred.map(({ weight }, i) => weight * robust[i]!),
    );
    if (!fit) return null;
    const found = fit;
    // In units of light, so that all patches' scatter is alike.
    robust = biweights(
      centred.map(({ row, value, weight }) => (value - dot(found, row)) * Math.sqrt(weight)),
      0.001,
    );
  }
  return fit && { fit, robust };
}

function squares(groups: readonly Term[][], fit: Float64Array, robust: readonly number[]): number {
  return centre(groups, robust).reduce(
    (sum, { row, value, weight }, i) => sum + robust[i]! * weight * (value - dot(fit, row)) ** 2,
    0,
  );
}

interface Term {
  readonly row: readonly number[];
  readonly value: number;
  readonly weight: number;
}

/** A group for each colour and channel: logarithms of density, weighted so that scatter in density counts alike. */
function groupsOf(
  patches: readonly LikePatch[],
  ground: LinearRgb,
  basis: (place: Point) => number[],
): Term[][] {
  const likes = new Map<string, LikePatch[]>();
  for (const patch of patches) {
    const key = patch.deviceRgb.join();
    likes.set(key, [...(likes.get(key) ?? []), patch]);
  }
  const groups: Term[][] = [];
  for (const members of likes.values()) {
    if (members.length < 3) continue;
    for (let c = 0; c < 3; c += 1) {
      const densities = members.map(({ rgb }) => -Math.log(Math.max(1e-3, rgb[c]! / ground[c]!)));
      const typical = median(densities);
      const group = members.flatMap(({ at }, i): Term[] => {
        const density = densities[i]!;
        if (density < leastDensity) return [];
        // An error of the light is one of density that grows as the light goes: 1 / share.
        const weight = (density * (Math.exp(-density) + 0.02)) ** 2;
        return [{ row: withDensity(basis(at), typical), value: Math.log(density), weight }];
      });
      if (group.length >= 3) groups.push(group);
    }
  }
  return groups;
}

function centre(groups: readonly Term[][], robust: readonly number[]): Term[] {
  let at = 0;
  return groups.flatMap((group) => {
    const weights = group.map(({ weight }, i) => weight * robust[at + i]!);
    at += group.length;
    const total = weights.reduce((sum, w) => sum + w, 0);
    const mean = (pick: (term: Term) => number): number =>
      total > 0 ? group.reduce((sum, term, i) => sum + weights[i]! * pick(term), 0) / total : 0;
    const middle = mean(({ value }) => value);
    const means = group[0]!.row.map((_, k) => mean(({ row }) => row[k]!));
    return group.map(({ row, value, weight }) => ({
      row: row.map((v, k) => v - means[k]!),
      value: value - middle,
      weight,
    }));
  });
}

function isMore(before: number, after: number, degrees: number): boolean {
  const f = (before - after) / places / (after / degrees);
  // Upper 0.1 % of F with 5 and ν degrees of freedom; the curve meets the printed tables within 4 % from ν = 8 on
  // (their values from memory: 13.5 at 8, 10.5 at 10, 6.46 at 20, 5.53 at 30, 4.76 at 60, 4.42 at 120, 4.10 at ∞).
  return f > 4.1 + 32.5 / degrees + 313 / degrees ** 2;
}

const mapCells = 16;

function evennessOf(layout: ChartLayout, isKnown: boolean, dyeAt: (place: Point) => number): Evenness {
  const { area } = layout;
  const places = layout.patches.map(({ rect }) => middleOf(rect));
  let least = places[0]!;
  let most = places[0]!;
  for (const place of places) {
    if (dyeAt(place) < dyeAt(least)) least = place;
    if (dyeAt(place) > dyeAt(most)) most = place;
  }
  const dye = Array.from({ length: mapCells ** 2 }, (_, i) =>
    dyeAt({
      x: area.xMm + (((i % mapCells) + 0.5) / mapCells) * area.widthMm,
      y: area.yMm + ((Math.floor(i / mapCells) + 0.5) / mapCells) * area.heightMm,
    }),
  );
  const where = (place: Point): string => whereOn(layout, place);
  return {
    isKnown,
    least: { dye: dyeAt(least), where: where(least) },
    most: { dye: dyeAt(most), where: where(most) },
    map: { columns: mapCells, rows: mapCells, dye },
  };
}

/** In ninths of the sheet as it reads: 'at the top left', 'in the middle'. */
export function whereOn({ area }: ChartLayout, { x, y }: Point): string {
  const across = Math.min(2, Math.max(0, Math.floor((3 * (x - area.xMm)) / area.widthMm)));
  const along = Math.min(2, Math.max(0, Math.floor((3 * (y - area.yMm)) / area.heightMm)));
  if (across === 1 && along === 1) return 'in the middle';
  const words = [['top', '', 'bottom'][along]!, ['left', '', 'right'][across]!].filter((word) => word !== '');
  return `at the ${words.join(' ')}`;
}

const middleOf = (rect: ChartLayout['area']): Point => ({
  x: rect.xMm + rect.widthMm / 2,
  y: rect.yMm + rect.heightMm / 2,
});
