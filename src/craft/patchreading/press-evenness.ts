import type { Point } from '#craft/reading';
import type { ChartLayout } from '#craft/testsheet';
import { isBeyondChance } from './by-chance.js';
import { fitLikes, type LikePatch, likesWith, withDensity } from './like-groups.js';
import { dot } from './polynomial.js';
import type { Evenness, LinearRgb } from './types.js';

export interface DyeField {
  readonly evenness: Evenness;
  /**
   * Dye at a place beside the sheet's mean, for a colour of such a density (natural logarithm of ground over patch);
   * 1 everywhere when no unevenness is known.
   */
  dyeAt(place: Point, density: number): number;
}

/** Least unevenness, from least to most dye, that is worth speaking of. */
const leastRange = 0.015;

/** At which density the evenness is stated: a middle grey's or so. */
const statedDensity = 1;

/** Unknowns of one polynomial: u, v and their products. */
const places = 5;
/** Densities above this are hardly ever measured, so the law is not carried further. */
const mostDensity = 3;
/** Patches beyond the first of each colour, fewer than which tell nothing. */
const fewestLikes = 12;

/**
 * Where the dye went thinner or thicker. Of patches that were printed alike, the density at a place is taken as that of
 * the colour times a smooth factor of the place, so its logarithm is a constant for each colour and channel plus a
 * second-degree polynomial. Where full colours suffer otherwise than light ones (bare specks rather than thin dye), a
 * second polynomial times the density is added. Each is kept only when it explains more than chance does.
 */
export function dyeField(layout: ChartLayout, patches: readonly LikePatch[], ground: LinearRgb): DyeField {
  const { area } = layout;
  const basis = ({ x, y }: Point): number[] => {
    const u = (2 * (x - area.xMm)) / area.widthMm - 1;
    const v = (2 * (y - area.yMm)) / area.heightMm - 1;
    return [u, v, u * u - 1 / 3, v * v - 1 / 3, u * v];
  };
  const likes = likesWith(patches, ground, basis);
  const beyond = likes.reduce((sum, { rows }) => sum + rows.length - 1, 0);
  let fit: Float64Array | null = null;
  if (beyond >= fewestLikes && isBeyondChance(likes, places, 0)) {
    const isFull = beyond >= 2 * fewestLikes && isBeyondChance(likes, 2 * places, places);
    const found = fitLikes(likes, isFull ? 2 * places : places);
    fit = found && Float64Array.from({ length: 2 * places }, (_, i) => found[i] ?? 0);
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
