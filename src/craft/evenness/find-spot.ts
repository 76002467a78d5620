import { deviateOf, falseAlarm, normalOfT } from './chance.js';
import type { FieldFit } from './fit-field.js';
import type { Lattice } from './places.js';
import { bell, type Spot } from './terms.js';
import type { Field, PlaceValue } from './types.js';

/** No wider than this share of the shorter side: what is wider is no spot. */
const widest = 0.22;

/**
 * Widths tried, in distances between places. On a fine map a fault narrower than a place and its neighbours is not to be
 * told from a speck; of a few readings each one counts.
 */
export function widthsOf({ pitchMm, isFine }: Lattice, field: Field): number[] {
  const most = widest * Math.min(field.widthMm, field.depthMm);
  const tried = isFine ? [0.9, 1.4, 2.2, 3.4] : [0.35, 0.7, 1.1];
  const within = tried.map((n) => n * pitchMm).filter((mm) => mm <= most);
  return within.length > 0 ? within : [tried[0]! * pitchMm];
}

/** How sure a spot must be, as a normal deviate: Bonferroni's bound over all places and widths tried, both signs. */
export const spotDeviate = (places: number, widths: number): number =>
  deviateOf(falseAlarm.spot / (2 * places * widths));

/** Places that stand out from all round them: a speck on the piece or the glass, no fault of the platen's. */
export function standingAlone(
  values: readonly PlaceValue[],
  fit: FieldFit,
  field: Field,
  { pitchMm, isFine }: Lattice,
): Set<number> {
  const alone = new Set<number>();
  if (!isFine) return alone;
  for (let i = 0; i < values.length; i += 1) {
    const own = fit.left[i]!;
    if (Math.abs(own) < 5) continue;
    let most = 0;
    for (let j = 0; j < values.length; j += 1) {
      if (j === i) continue;
      const x = (values[j]!.across - values[i]!.across) * field.widthMm;
      const y = (values[j]!.along - values[i]!.along) * field.depthMm;
      if (Math.hypot(x, y) < 1.6 * pitchMm) most = Math.max(most, Math.sign(own) * fit.left[j]!);
    }
    // A bell a place wide still has 0.6 of its height at the next place.
    if (most < 0.4 * Math.abs(own)) alone.add(i);
  }
  return alone;
}

/**
 * The likeliest further spot in what a fit left over: bells of several widths on every place, held against the
 * residuals (a matched filter), then moved to where they fit best. On fine maps a residual counts no more than four σ
 * in the search, so that one or two wild places make no spot.
 */
export function findSpot(
  values: readonly PlaceValue[],
  fit: FieldFit,
  field: Field,
  lattice: Lattice,
  alone: ReadonlySet<number>,
): Spot | null {
  const widths = widthsOf(lattice, field);
  const use = values.map((_, i) => i).filter((i) => !alone.has(i));
  const most = lattice.isFine ? 4 : Number.POSITIVE_INFINITY;
  const held = fit.left.map((r) => Math.min(most, Math.max(-most, r)));
  let best: Spot | null = null;
  let size = 0;
  for (const sigmaMm of widths) {
    for (const i of use) {
      const spot = { across: values[i]!.across, along: values[i]!.along, sigmaMm };
      const found = Math.abs(deviate(spot, values, fit, field, use, held));
      if (found > size) [best, size] = [spot, found];
    }
  }
  const sure = spotDeviate(values.length, widths.length);
  if (best === null || normalOfT(size, fit.freedom) < sure) return null;
  return moved(best, values, fit, field, lattice, alone);
}

/** The same spot where it fits what is left best, without a bound on single residuals. */
export function moved(
  from: Spot,
  values: readonly PlaceValue[],
  fit: FieldFit,
  field: Field,
  lattice: Lattice,
  alone: ReadonlySet<number>,
): Spot {
  // A coarse grid cannot tell where between its places a spot lies, nor how wide it is.
  if (!lattice.isFine) return from;
  const use = values.map((_, i) => i).filter((i) => !alone.has(i));
  const of = (spot: Spot): number => Math.abs(deviate(spot, values, fit, field, use, fit.left));
  const widths = widthsOf(lattice, field);
  const [least, most] = [0.7 * lattice.pitchMm, 1.3 * widths.at(-1)!];
  let best = from;
  let size = of(best);
  for (let step = 0.5; step > 0.05; ) {
    const [x, y] = [(step * lattice.pitchMm) / field.widthMm, (step * lattice.pitchMm) / field.depthMm];
    const bounded = (spot: Spot): Spot => ({
      across: Math.min(1, Math.max(0, spot.across)),
      along: Math.min(1, Math.max(0, spot.along)),
      sigmaMm: Math.min(most, Math.max(least, spot.sigmaMm)),
    });
    const tries = [
      { ...best, across: best.across - x },
      { ...best, across: best.across + x },
      { ...best, along: best.along - y },
      { ...best, along: best.along + y },
      { ...best, sigmaMm: best.sigmaMm * (1 + 0.4 * step) },
      { ...best, sigmaMm: best.sigmaMm / (1 + 0.4 * step) },
    ].map(bounded);
    const sizes = tries.map(of);
    const top = sizes.indexOf(Math.max(...sizes));
    if (sizes[top]! > size + 1e-9) [best, size] = [tries[top]!, sizes[top]!];
    else step /= 2;
  }
  return best;
}

/** Height of the bell that fits the residuals best, over its standard error. */
function deviate(
  spot: Spot,
  values: readonly PlaceValue[],
  fit: FieldFit,
  field: Field,
  use: readonly number[],
  left: ArrayLike<number>,
): number {
  let product = 0;
  let square = 0;
  for (const i of use) {
    const k = bell(spot, values[i]!, field) / fit.sigma[i]!;
    product += k * left[i]!;
    square += k * k;
  }
  return square > 0 ? product / Math.sqrt(square) : 0;
}
