import { median } from '#craft/numerics';
import { Problem } from '#craft/problem';
import { falseAlarm, tailOfTwo } from './chance.js';
import { type FieldFit, fitField } from './fit-field.js';
import { evenWords, likely, rimWords, spotWords, tiltWords } from './found-words.js';
import { latticeOf } from './places.js';
import { leastWorth, type Settled, settleShape } from './settle-shape.js';
import { bell, type Spot } from './terms.js';
import type { Estimate, Field, Found, PlaceValue, Split } from './types.js';
import { atPlace, towards } from './where.js';

/** Nine in ten of a normal distribution lie within so many standard deviations. */
const nineInTen = 1.645;

/**
 * Splits how far the places of a platen are behind into a tilt, a rim along all edges and spots, each kept only when
 * beyond chance: of even maps, one in a hundred shows a tilt, a rim or a spot by mistake (see `falseAlarm`). A tilt is a
 * plane; a rim falls off with the distance from the edges; spots are bells found one after the other. The fit is robust
 * (Tukey's bisquare), so single bad places neither bend the plane nor make a spot.
 *
 * @param values what is more is worse: paler, or cooler; places that could not be read are left out
 * @throws Problem `press.invalid` when there is no place at all or one is no number
 */
export function splitUnevenness(values: readonly PlaceValue[], about: Field): Split {
  checkValues(values, about);
  const lattice = latticeOf(values, about);
  const settled = settleShape(values, about, lattice);
  if (settled === null) {
    const level = values.reduce((sum, { value }) => sum + value, 0) / values.length;
    const residualSd = Math.sqrt(values.reduce((sum, { sd }) => sum + sd * sd, 0) / values.length);
    return {
      found: [evenOf(about, null)],
      smoothAt: () => level,
      residualSd,
      remarks: tooFew(values, about),
    };
  }
  const { alone } = settled;
  let { fit } = settled;
  let found = foundIn(settled, values, about, lattice.isFine);
  if (found.length === 0 && !lattice.isFine) {
    const plain = plainTilt(values, about);
    if (plain !== null) {
      fit = plain.fit;
      found = foundIn(plain, values, about, false);
    }
  }
  const remarks = tooFew(values, about);
  if (alone.size > 0) {
    const where = [...alone].slice(0, 3).map((i) => atPlace(values[i]!, about.sides));
    const more = alone.size > 3 ? `, and ${alone.size - 3} more` : '';
    remarks.push(
      `${alone.size === 1 ? 'One place stands' : `${alone.size} places stand`} alone and ${alone.size === 1 ? 'was' : 'were'} left out, as a speck on the piece or the glass would be: ${[...new Set(where)].join(', ')}${more}.`,
    );
  }
  return {
    found: found.length > 0 ? found : [evenOf(about, fit)],
    smoothAt: (across, along) => fit.at({ across, along }),
    residualSd: Math.sqrt(fit.sigma.reduce((sum, s) => sum + s * s, 0) / fit.sigma.length),
    remarks,
  };
}

/**
 * Of few readings that differ by far more than each repeats itself, but lie on no plane: what the plane leaves looks like
 * chance and would hide it. Here chance is what the readings claim for themselves, and a plane says from where to where
 * it falls. Null where even that is not beyond chance.
 */
function plainTilt(values: readonly PlaceValue[], about: Field): Settled | null {
  const { columns, rows } = latticeOf(values, about);
  if (values.length < 4 || columns < 2 || rows < 2) return null;
  const fit = fitField(values, about, { tiltsAcross: true, tiltsAlong: true, rim: null, spots: [] });
  if (fit === null) return null;
  const stated = Math.sqrt(values.reduce((sum, { sd }) => sum + sd * sd, 0) / values.length);
  const share = Math.min(1, stated / Math.max(...fit.sigma));
  const slopes = [1, 2].map((k) => fit.coefficients[k]!);
  const q = slopes.reduce((sum, slope, i) => sum + (slope / (fit.errors[i + 1]! * share)) ** 2, 0);
  const isBeyond = tailOfTwo(q, Number.POSITIVE_INFINITY) < falseAlarm.tilt / 10;
  if (!isBeyond || 2 * Math.hypot(...slopes) < 2 * leastWorth[about.unit]) return null;
  return { fit, alike: 1, alone: new Set() };
}

function foundIn(settled: Settled, values: readonly PlaceValue[], about: Field, isFine: boolean): Found[] {
  const { fit, alike } = settled;
  const { unit } = about;
  const found: Found[] = [];
  const [across, along] = [fit.names.indexOf('across'), fit.names.indexOf('along')];
  const errorOf = (k: number): number => fit.errors[k]! * Math.sqrt(alike);
  if (across >= 0 || along >= 0) {
    const slope = (k: number): number => (k < 0 ? 0 : fit.coefficients[k]!);
    const worst = towards(slope(across), slope(along));
    const used = [worst.across === 0.5 ? -1 : across, worst.along === 0.5 ? -1 : along].filter((k) => k >= 0);
    // Slopes are for half the face.
    const size = 2 * used.reduce((sum, k) => sum + Math.abs(fit.coefficients[k]!), 0);
    const strength = estimate(size, 2 * Math.hypot(...used.map(errorOf)));
    found.push({
      kind: 'tilt',
      words: tiltWords(worst, size, about),
      likely: likely[unit].tilt!,
      strength,
      at: worst,
    });
  }
  fit.names.forEach((name, k) => {
    if (name === 'rim') {
      const size = fit.coefficients[k]!;
      const strength = estimate(size, errorOf(k));
      const words = rimWords(size, fit.shape.rim!.reachMm, about);
      found.push({ kind: 'rim', words, likely: likely[unit].rim!, strength, at: null });
    } else if (name.startsWith('spot')) {
      const spot = fit.shape.spots[Number(name.slice(5))]!;
      const at = { across: spot.across, along: spot.along };
      const { size, sd } = heightOf(settled, values, about, k, spot);
      const strength = estimate(size, Math.max(sd, errorOf(k)));
      // Across, a bell is about as wide as where it has half its height.
      const words = spotWords(at, size, isFine ? 2.355 * spot.sigmaMm : null, about);
      found.push({
        kind: 'spot',
        words,
        likely: likely[unit][size < 0 ? 'dark spot' : 'spot']!,
        strength,
        at,
      });
    }
  });
  return found.toSorted((a, b) => Math.abs(b.strength.value) - Math.abs(a.strength.value));
}

/** Where a bell has three quarters of its height; and so many places there, from which on they speak for themselves. */
const core = 0.75;
const fewestInCore = 4;

/**
 * How far a spot is behind what is round it: the median of its core beside the rest of the pattern, since flanks steeper
 * than a bell's drive the bell's own height too far up; the bell's height where the core has too few places.
 */
function heightOf(
  { fit, alike, alone }: Settled,
  values: readonly PlaceValue[],
  about: Field,
  k: number,
  spot: Spot,
): { size: number; sd: number } {
  const height = fit.coefficients[k]!;
  const inCore = values.flatMap((place, i) => {
    const share = bell(spot, place, about);
    // What is left over plus the spot's own part: the value less the rest of the pattern.
    return share > core && !alone.has(i)
      ? [{ excess: fit.left[i]! * fit.sigma[i]! + share * height, sigma: fit.sigma[i]! }]
      : [];
  });
  if (inCore.length < fewestInCore) return { size: height, sd: 0 };
  // A median is 1.25 times less sure than a mean (√(π/2)).
  const sd =
    (1.25 * Math.sqrt(alike) * Math.max(...inCore.map(({ sigma }) => sigma))) / Math.sqrt(inCore.length);
  return { size: median(inCore.map(({ excess }) => excess)), sd };
}

/** Nothing found; the strength's upper end is the tilt that could still hide in chance. */
function evenOf(about: Field, fit: FieldFit | null): Found {
  const mean = fit === null ? 0 : fit.errors[0]!;
  // On an even grid a slope is √3 times less sure than the level.
  const high = Math.max(leastWorth[about.unit], 2 * Math.sqrt(3) * 3 * mean);
  return {
    kind: 'even',
    words: evenWords[about.unit],
    likely: likely[about.unit].even!,
    strength: { value: 0, low: 0, high },
    at: null,
  };
}

const estimate = (value: number, sd: number): Estimate => ({
  value,
  low: value - nineInTen * sd,
  high: value + nineInTen * sd,
});

function tooFew(values: readonly PlaceValue[], about: Field): string[] {
  const { columns, rows } = latticeOf(values, about);
  if (values.length === 1) return ['One place says nothing of how even the platen is.'];
  if (columns === 1 || rows === 1) {
    const way = columns === 1 ? 'side to side' : 'back to front';
    return [`Places in one line say nothing of what changes from ${way}.`];
  }
  if (values.length < 9)
    return [
      `${values.length} places can show a tilt, but neither cool edges nor spots: measure 3 × 3 or more.`,
    ];
  if (Math.min(columns, rows) < 4)
    return [
      `${columns} × ${rows} places cannot tell falling edges from one odd place: measure 5 × 4 or more for that.`,
    ];
  return [];
}

function checkValues(values: readonly PlaceValue[], { widthMm, depthMm }: Field): void {
  const isBad = values.some(
    ({ across, along, value, sd }) => ![across, along, value, sd].every(Number.isFinite) || !(sd > 0),
  );
  if (values.length > 0 && !isBad && widthMm > 0 && depthMm > 0) return;
  throw new Problem(
    'press.invalid',
    values.length === 0 ? 'There is no place to go by.' : 'A place of the map has no usable value.',
    { remedy: 'Give at least one place with its value and how sure it is, and the size of the face.' },
  );
}
