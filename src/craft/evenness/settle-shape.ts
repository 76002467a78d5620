import { rimWays, withBestRim } from './best-rim.js';
import { deviateOf, falseAlarm, likeNeighbours, normalOfT, tailOfTwo } from './chance.js';
import { findSpot, moved, spotDeviate, standingAlone, widthsOf } from './find-spot.js';
import { type FieldFit, fitField } from './fit-field.js';
import type { Lattice } from './places.js';
import type { Shape, Spot, TermName } from './terms.js';
import type { Field, Place, PlaceValue, UnevennessUnit } from './types.js';

export interface Settled {
  readonly fit: FieldFit;
  /** Standard errors are to be taken larger by its root: neighbours are alike. */
  readonly alike: number;
  readonly alone: ReadonlySet<number>;
}

/** What is smaller is not worth speaking of: an eye sees about 1 ΔE00, a thermostat swings by more than a kelvin. */
export const leastWorth: Readonly<Record<UnevennessUnit, number>> = { ΔE00: 0.5, K: 1 };

const mostSpots = 5;
/** Standard errors; twice the bound a spot must pass. Our choice. */
const overwhelming = 10;
/** Which of tilt, rim and spots a map has beyond chance: all that may be are put in, then what is not sure goes out. */
export function settleShape(values: readonly PlaceValue[], field: Field, lattice: Lattice): Settled | null {
  let shape: Shape = {
    tiltsAcross: lattice.columns >= 2,
    tiltsAlong: lattice.rows >= 2 && values.length >= (lattice.columns >= 2 ? 4 : 2),
    rim: null,
    spots: [],
  };
  let fit = withBestRim(values, field, shape, lattice);
  if (fit === null) {
    shape = { ...shape, tiltsAcross: false, tiltsAlong: false };
    fit = fitField(values, field, shape);
    if (fit === null) return null;
  }
  let alone = standingAlone(values, fit, field, lattice);
  if (values.length >= 9) {
    for (let tries = 0; tries < 2 * mostSpots && fit.shape.spots.length < mostSpots; tries += 1) {
      const spot = findSpot(values, fit, field, lattice, alone);
      if (spot === null) break;
      const spots = merged(
        [...fit.shape.spots, spot],
        [...fit.shape.spots.map((_, i) => heightOf(fit!, i)), fit.left[nearest(values, spot)]!],
        field,
      );
      const more = withBestRim(values, field, { ...fit.shape, spots }, lattice);
      if (more === null || more.freedom < 8) break;
      fit = resettled(more, values, field, lattice, alone);
      alone = standingAlone(values, fit, field, lattice);
    }
  }
  return kept(fit, values, field, lattice, alone);
}

const heightOf = (fit: FieldFit, spot: number): number =>
  fit.coefficients[fit.names.indexOf(`spot ${spot}`)]!;

const nearest = (values: readonly PlaceValue[], to: Place): number => {
  const far = values.map(({ across, along }) => Math.hypot(across - to.across, along - to.along));
  return far.indexOf(Math.min(...far));
};

/** A further spot of the same sign within another is a part of it that the bell missed: one wider spot instead. */
function merged(spots: readonly Spot[], heights: readonly number[], field: Field): Spot[] {
  const added = spots.at(-1)!;
  const others = spots.slice(0, -1);
  const into = others.findIndex((other, i) => {
    const x = (other.across - added.across) * field.widthMm;
    const y = (other.along - added.along) * field.depthMm;
    const isNear = Math.hypot(x, y) < 2 * Math.max(other.sigmaMm, added.sigmaMm);
    return isNear && Math.sign(heights[i]!) === Math.sign(heights.at(-1)!);
  });
  if (into < 0) return [...spots];
  const one = others[into]!;
  // Halfway, and as wide as both together.
  const both: Spot = {
    across: (one.across + added.across) / 2,
    along: (one.along + added.along) / 2,
    sigmaMm: 1.2 * Math.max(one.sigmaMm, added.sigmaMm),
  };
  return others.map((other, i) => (i === into ? both : other));
}

/** Every spot moved once more to where it fits best with the others there. */
function resettled(
  fit: FieldFit,
  values: readonly PlaceValue[],
  field: Field,
  lattice: Lattice,
  alone: ReadonlySet<number>,
): FieldFit {
  let settled = fit;
  for (let s = 0; s < fit.shape.spots.length; s += 1) {
    const spots = settled.shape.spots;
    const without = fitField(values, field, { ...settled.shape, spots: spots.filter((_, i) => i !== s) });
    if (without === null) continue;
    const spot = moved(spots[s]!, values, without, field, lattice, alone);
    const next = fitField(values, field, {
      ...settled.shape,
      spots: spots.map((old, i) => (i === s ? spot : old)),
    });
    if (next !== null) settled = next;
  }
  return settled;
}

function kept(
  all: FieldFit,
  values: readonly PlaceValue[],
  field: Field,
  lattice: Lattice,
  alone: ReadonlySet<number>,
): Settled {
  let fit = all;
  const alikeIn = ({ left, belief }: FieldFit): number =>
    lattice.isFine
      ? likeNeighbours(values, left, (i) => belief[i]! > 0.2 && !alone.has(i), field, lattice.pitchMm)
      : 1;
  // Spots that are not overwhelmingly sure may be mottle; taken out of it, they would make it look smaller than it is.
  const { shape: whole } = all;
  const isOverwhelming = whole.spots.map((_, i) => {
    const k = all.names.indexOf(`spot ${i}`);
    return Math.abs(all.coefficients[k]! / all.errors[k]!) > overwhelming;
  });
  const sure = fitField(values, field, { ...whole, spots: whole.spots.filter((_, i) => isOverwhelming[i]) });
  const mottle = sure === null ? 1 : alikeIn(sure);
  for (;;) {
    const alike = Math.max(mottle, alikeIn(fit));
    const weakest = weakestTerm(fit, alike, values.length, lattice, field);
    if (weakest === null) return { fit, alike, alone };
    const { shape } = fit;
    const fewer =
      weakest === 'tilt'
        ? { ...shape, tiltsAcross: false, tiltsAlong: false }
        : weakest === 'rim'
          ? { ...shape, rim: null }
          : { ...shape, spots: shape.spots.filter((_, i) => `spot ${i}` !== weakest) };
    const next = fitField(values, field, fewer);
    if (next === null) return { fit, alike, alone };
    fit = next;
  }
}

/** Of the terms that chance explains, or that are too small to matter, the one furthest from being sure. */
function weakestTerm(
  fit: FieldFit,
  alike: number,
  places: number,
  lattice: Lattice,
  field: Field,
): TermName | 'tilt' | null {
  const worth = leastWorth[field.unit];
  const doubtful: { name: TermName | 'tilt'; sureness: number }[] = [];
  const t = (k: number): number => fit.coefficients[k]! / (fit.errors[k]! * Math.sqrt(alike));
  const tilts = fit.names.flatMap((name, k) => (name === 'across' || name === 'along' ? [k] : []));
  if (tilts.length > 0) {
    const q = tilts.reduce((sum, k) => sum + t(k) ** 2, 0);
    const size = 2 * Math.hypot(...tilts.map((k) => fit.coefficients[k]!));
    const isSure =
      tilts.length === 2
        ? tailOfTwo(q, fit.freedom) < falseAlarm.tilt
        : normalOfT(Math.sqrt(q), fit.freedom) > deviateOf(falseAlarm.tilt / 2);
    if (!isSure || size < worth) doubtful.push({ name: 'tilt', sureness: Math.sqrt(q) });
  }
  fit.names.forEach((name, k) => {
    if (name === 'rim') {
      const sure = deviateOf(falseAlarm.rim / rimWays);
      if (normalOfT(t(k), fit.freedom) < sure || fit.coefficients[k]! < worth)
        doubtful.push({ name, sureness: t(k) });
    } else if (name.startsWith('spot')) {
      const sure = spotDeviate(places, widthsOf(lattice, field).length);
      const least = Math.max(worth, unexplained(fit, Number(name.slice(5)), field));
      if (normalOfT(Math.abs(t(k)), fit.freedom) < sure || Math.abs(fit.coefficients[k]!) < least)
        doubtful.push({ name, sureness: Math.abs(t(k)) });
    }
  });
  return doubtful.toSorted((a, b) => a.sureness - b.sureness)[0]?.name ?? null;
}

/**
 * Rims are no neat exponentials, platens no planes, and spots no bells: what a spot must exceed so as not to be a remnant
 * of the terms round it. Shares are a choice of ours, held by the simulated presses in the tests.
 */
function unexplained(fit: FieldFit, which: number, field: Field): number {
  const size = (name: TermName): number => Math.abs(fit.coefficients[fit.names.indexOf(name)] ?? 0);
  const own = fit.shape.spots[which]!;
  const beside = fit.shape.spots.map((spot, i) => {
    if (i === which || size(`spot ${i}`) < size(`spot ${which}`)) return 0;
    const x = (spot.across - own.across) * field.widthMm;
    const y = (spot.along - own.along) * field.depthMm;
    return Math.hypot(x, y) < 3 * spot.sigmaMm + own.sigmaMm ? 0.25 * size(`spot ${i}`) : 0;
  });
  // Only towards the edges is a rim's way of falling off in doubt.
  const edgeMm = Math.min(
    own.across * field.widthMm,
    (1 - own.across) * field.widthMm,
    own.along * field.depthMm,
    (1 - own.along) * field.depthMm,
  );
  const reach = fit.shape.rim?.reachMm ?? 1;
  const rim = (edgeMm < reach ? 0.6 : 0.3) * size('rim');
  return rim + 0.12 * 2 * (size('across') + size('along')) + Math.max(0, ...beside);
}
