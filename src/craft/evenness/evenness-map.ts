import { deltaE00 } from '#craft/colour';
import { quantile } from '#craft/numerics';
import { Problem } from '#craft/problem';
import { bestRegion } from './best-region.js';
import { headline } from './found-words.js';
import { signedDifferences } from './signed-difference.js';
import { splitUnevenness } from './split-unevenness.js';
import type { EvennessMap, Field, LabCell, Place, Sides, Split } from './types.js';
import { atPlace } from './where.js';

const fewestCells = 12;

/**
 * The map of one evenness sheet: every cell beside the best region, and what unevenness there is beyond chance.
 *
 * @param cells as the sheet reads; its top is taken to lie at the press's back
 * @param sides what its top and foot are called; left out: back and front
 * @param pitchMm from middle to middle of neighbouring cells
 * @throws Problem `scan.unclear` when fewer than a dozen cells are sound
 */
export function evennessMap(
  cells: readonly LabCell[],
  columns: number,
  rows: number,
  pitchMm: number,
  sides?: Sides,
): EvennessMap {
  const sound = cells.filter(
    ({ isSound, lab, sdLab, density, column, row }) =>
      isSound &&
      [...lab, ...sdLab, density].every(Number.isFinite) &&
      column >= 0 &&
      row >= 0 &&
      column < columns &&
      row < rows,
  );
  if (sound.length < fewestCells) {
    throw new Problem('scan.unclear', `Only ${sound.length} cells of the evenness sheet can be read.`, {
      remedy: 'Clean the glass, show the whole sheet, and scan again without automatic corrections.',
    });
  }
  const placeOf = (column: number, row: number): Place => ({
    across: (column + 0.5) / columns,
    along: (row + 0.5) / rows,
  });
  const best = bestRegion(sound, columns, rows);
  const signed = signedDifferences(sound, best.lab);
  const about: Field = {
    unit: 'ΔE00',
    widthMm: columns * pitchMm,
    depthMm: rows * pitchMm,
    called: signed.called,
    sides,
  };
  const split = splitUnevenness(
    sound.map(({ column, row }, i) => ({
      ...placeOf(column, row),
      value: signed.value[i]!,
      sd: signed.sd[i]!,
    })),
    about,
  );
  const all = columns * rows;
  const deltas: (number | null)[] = Array<number | null>(all).fill(null);
  const densityLess: (number | null)[] = Array<number | null>(all).fill(null);
  for (const { column, row, lab, density } of sound) {
    deltas[row * columns + column] = deltaE00(best.lab, lab);
    densityLess[row * columns + column] = best.density - density;
  }
  const places = Array.from({ length: all }, (_, i) => placeOf(i % columns, Math.floor(i / columns)));
  const pattern = places.map(({ across, along }) => split.smoothAt(across, along));
  const least = Math.min(...pattern);
  const smooth = pattern.map((v) => v - least);
  const read = deltas.filter((v) => v !== null);
  const facts = {
    best: placeOf(best.column, best.row),
    meanDeltaE00: read.reduce((sum, v) => sum + v, 0) / read.length,
    p95DeltaE00: quantile(read, 0.95),
  };
  return {
    columns,
    rows,
    deltaE00: deltas,
    densityLess,
    smooth,
    ...facts,
    found: split.found,
    sentences: sentencesOf(
      split,
      facts,
      quantile(
        densityLess.filter((v) => v !== null),
        0.95,
      ),
      about,
    ),
  };
}

function sentencesOf(
  { found, remarks }: Split,
  { best, p95DeltaE00 }: Pick<EvennessMap, 'best' | 'p95DeltaE00'>,
  densityLoss: number,
  about: Field,
): string[] {
  const isEven = found.every(({ kind }) => kind === 'even');
  const within = `19 of 20 places are within ${p95DeltaE00.toFixed(1)} ΔE00 of the best`;
  const thin = `and have at most ${Math.max(0, densityLoss).toFixed(2)} less density`;
  return [
    headline(found, about),
    ...(isEven ? [] : found.map(({ words }) => words)),
    isEven ? `${within} ${thin}.` : `${within} ${thin}; it is best ${atPlace(best, about.sides)}.`,
    ...(!isEven && about.called?.worse === 'greener'
      ? [
          'Greener usually is cooler, shorter or pressed more softly; browner the other way (common practice).',
        ]
      : []),
    ...remarks,
  ];
}
