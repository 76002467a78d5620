import { deltaE00, type Triple } from '#craft/colour';
import type { LabCell } from './types.js';

/** How far cells are behind a reference colour, with a sign: a colour difference alone has none, so its chance would not average out. */
export interface SignedDifferences {
  /** Above 0: paler, by so much CIEDE2000 along the line on which the cells mainly differ. */
  readonly value: Float64Array;
  readonly sd: Float64Array;
  /** What cells above 0 are called beside those below: 'paler' where the line runs mainly along lightness, else by hue. */
  readonly called: { readonly worse: string; readonly better: string };
}

/**
 * Cells of an unevenly pressed tone lie along a line in colour space, from full to pale. The line is the main axis of
 * their differences (principal component, in units of CIEDE2000 at the reference); each cell's value is the CIEDE2000 to
 * its foot on that line, and chance off the line is left out.
 */
export function signedDifferences(cells: readonly LabCell[], reference: Triple): SignedDifferences {
  const steps = [0, 1, 2].map((k) => {
    const moved = reference.map((v, i) => v + (i === k ? 0.5 : 0)) as unknown as Triple;
    return 2 * deltaE00(reference, moved);
  });
  const scaled = cells.map(({ lab }) => lab.map((v, k) => (v - reference[k]!) * steps[k]!));
  const axis = mainAxis(scaled, cells, steps);
  const value = Float64Array.from(scaled, (d) => {
    const along = d.reduce((sum, v, k) => sum + v * axis[k]!, 0);
    const foot = reference.map((v, k) => v + (along * axis[k]!) / steps[k]!) as unknown as Triple;
    return Math.sign(along) * deltaE00(reference, foot);
  });
  const sd = Float64Array.from(cells, ({ sdLab }) =>
    Math.max(0.02, Math.hypot(...sdLab.map((s, k) => s * steps[k]! * axis[k]!))),
  );
  return { value, sd, called: calledBy(axis) };
}

/** Unit vector towards paler. */
function mainAxis(
  scaled: readonly number[][],
  cells: readonly LabCell[],
  steps: readonly number[],
): number[] {
  const n = scaled.length;
  const mean = [0, 1, 2].map((k) => scaled.reduce((sum, d) => sum + d[k]!, 0) / n);
  const spread = scaled.map((d) => d.map((v, k) => v - mean[k]!));
  const sizes = spread.map((d) => Math.hypot(...d)).toSorted((a, b) => a - b);
  // Wild cells (dust) do not turn the axis.
  const most = 1e-9 + 3 * sizes[Math.floor(n / 2)]!;
  const matrix = [0, 1, 2].map((i) =>
    [0, 1, 2].map(
      (j) =>
        spread.reduce((sum, d) => {
          const size = Math.hypot(...d);
          const share = size > most ? (most / size) ** 2 : 1;
          return sum + share * d[i]! * d[j]!;
        }, 0) / n,
    ),
  );
  // Where nothing but chance is seen, lightness is the axis: half the noise's variance is laid on it beforehand.
  const noise = cells.reduce((sum, { sdLab }) => sum + (sdLab[0] * steps[0]!) ** 2, 0) / n;
  matrix[0]![0] = matrix[0]![0]! + 0.5 * noise + 1e-9;
  let axis = [1, 0.01, 0.01];
  for (let i = 0; i < 60; i += 1) {
    const next = matrix.map((row) => row.reduce((sum, v, k) => sum + v * axis[k]!, 0));
    const size = Math.hypot(...next);
    axis = next.map((v) => v / size);
  }
  const densities = cells.map(({ density }) => density);
  const middle = densities.reduce((sum, d) => sum + d, 0) / n;
  const thinner = spread.reduce(
    (sum, d, i) => sum + d.reduce((s, v, k) => s + v * axis[k]!, 0) * (middle - densities[i]!),
    0,
  );
  return thinner < 0 ? axis.map((v) => -v) : axis;
}

/** Lightness for as long as it is the larger part of the difference; otherwise the hue towards which the thinner end turns. */
function calledBy([l, a, b]: readonly number[]): SignedDifferences['called'] {
  if (Math.abs(l!) >= Math.hypot(a!, b!)) return { worse: 'paler', better: 'darker' };
  const quarter = Math.round((2 * Math.atan2(b!, a!)) / Math.PI);
  const names = ['redder', 'yellower', 'greener', 'bluer'];
  return { worse: names[(quarter + 4) % 4]!, better: names[(quarter + 2) % 4]! };
}
