import { robustLeastSquares } from '#craft/numerics';
import { bell, outermostOf, rowsOf, type Shape, type TermName, termNames } from './terms.js';
import type { Field, Place, PlaceValue } from './types.js';

export interface FieldFit {
  readonly shape: Shape;
  readonly names: readonly TermName[];
  readonly coefficients: Float64Array;
  /** Of each coefficient, as if chance were independent from place to place. */
  readonly errors: Float64Array;
  readonly freedom: number;
  /** Residuals in units of their own σ, and how far each place was believed, 0..1. */
  readonly left: Float64Array;
  readonly belief: Float64Array;
  /** σ of each place. */
  readonly sigma: Float64Array;
  at(place: Place): number;
}

/** What a stated standard deviation is worth beside residuals: as many degrees of freedom. Our choice. */
const worthOfStated = 6;
/** From so many on, residuals may say that chance is less than stated. */
const manyResiduals = 60;

/**
 * Robust fit of one shape. The noise of each place is its stated one and one for all beside it (what repeats of neither
 * print nor press), which is told from the residuals.
 * @returns null when the places do not determine it
 */
export function fitField(values: readonly PlaceValue[], field: Field, shape: Shape): FieldFit | null {
  const rowAt = rowsOf(shape, field, outermostOf(values));
  const rows = values.map(rowAt);
  const y = values.map(({ value }) => value);
  if (rows.length < rows[0]!.length) return null;
  // Places of a spot that is no neat bell lie off it together; refused, they would be found as spots of their own.
  const isInSpot = values.map((place) => shape.spots.some((spot) => bell(spot, place, field) > 0.1));
  const neverRefused = (i: number): boolean => isInSpot[i]!;
  let beside = 0;
  let scaled = 1;
  let robust: ReturnType<typeof robustLeastSquares> = null;
  const varianceOf = (sd: number): number => sd * sd + beside;
  for (let round = 0; round < 3; round += 1) {
    const weights = values.map(({ sd }) => 1 / varianceOf(sd));
    robust = robustLeastSquares(rows, y, weights, { leastScale: 0.5, neverRefused });
    if (robust === null) return null;
    const freedom = robust.fit.freedom;
    // Of p coefficients fitted to n rows the residuals are smaller by √((n − p)/n).
    const own = freedom > 0 ? robust.scale ** 2 * (rows.length / freedom) : 1;
    scaled = (worthOfStated + freedom * own) / (worthOfStated + freedom);
    const stated = values.reduce((sum, { sd }) => sum + sd * sd, 0) / values.length;
    const found = scaled * (stated + beside);
    if (scaled > 1.05) beside = Math.max(0, found - stated);
    else break;
  }
  const { fit, belief } = robust!;
  // A few residuals that happen to be small are no reason to believe readings more than they claim for themselves.
  const noise = Math.sqrt(Math.max(fit.freedom > manyResiduals ? 0.3 : 1, scaled));
  const sigma = Float64Array.from(values, ({ sd }) => noise * Math.sqrt(varianceOf(sd)));
  const { coefficients } = fit;
  return {
    shape,
    names: termNames(shape),
    coefficients,
    errors: fit.unitErrors.map((e) => e * noise),
    freedom: fit.freedom + worthOfStated,
    left: fit.residuals.map((r, i) => r / sigma[i]!),
    belief,
    sigma,
    at: (place) => rowAt(place).reduce((sum, v, k) => sum + v * coefficients[k]!, 0),
  };
}
