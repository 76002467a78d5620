import { leastSquares } from '#craft/numerics';
import { type FieldFit, fitField } from './fit-field.js';
import type { Lattice } from './places.js';
import { outermostOf, type Rim, rowsOf, type Shape } from './terms.js';
import type { Field, PlaceValue } from './types.js';

/** Reaches that are tried, as shares of the shorter side. */
const reaches = [0.05, 0.08, 0.12, 0.18, 0.26];
const corners = ['added', 'one after the other', 'nearest'] as const;
const profiles = ['exponential', 'ending'] as const;

/** As how many independent tries the ways above count, which are much alike. Our choice, held by the tests of false alarms. */
export const rimWays = 8;

/** The same shape with the rim that explains most; without one where edges are not behind the middle. */
export function withBestRim(
  values: readonly PlaceValue[],
  field: Field,
  shape: Shape,
  { columns, rows, pitchMm }: Lattice,
): FieldFit | null {
  const bare = fitField(values, field, { ...shape, rim: null });
  // Of fewer rows and columns the edges are nearly all there is.
  if (bare === null || Math.min(columns, rows) < 4) return bare;
  const side = Math.min(field.widthMm, field.depthMm);
  const outermost = outermostOf(values);
  const weights = Array.from(bare.sigma, (s) => 1 / (s * s));
  const y = values.map(({ value }) => value);
  let best: Rim | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const share of reaches) {
    const reachMm = Math.max(0.6 * pitchMm, share * side);
    for (const corner of corners) {
      for (const profile of profiles) {
        const rim = { reachMm, corners: corner, profile };
        const fit = leastSquares(values.map(rowsOf({ ...shape, rim }, field, outermost)), y, weights);
        // The rim stands before the spots.
        const at = 1 + Number(shape.tiltsAcross) + Number(shape.tiltsAlong);
        if (fit === null || !(fit.coefficients[at]! > 0)) continue;
        const loss = fit.residuals.reduce(
          (sum, r, i) => sum + Math.min(Math.abs(r) / bare.sigma[i]!, 4) ** 2,
          0,
        );
        if (loss < least) [best, least] = [rim, loss];
      }
    }
  }
  const rimmed = best && fitField(values, field, { ...shape, rim: best });
  return rimmed !== null && rimmed.coefficients[rimmed.names.indexOf('rim')]! > 0 ? rimmed : bare;
}
