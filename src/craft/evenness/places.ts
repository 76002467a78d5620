import type { Field, PlaceValue } from './types.js';

/** How the places lie: in how many columns and rows, how far apart. */
export interface Lattice {
  readonly columns: number;
  readonly rows: number;
  readonly pitchMm: number;
  /** Fine enough for a fault to cover several places, so that one place alone is no fault of the platen's. */
  readonly isFine: boolean;
}

const finePlaces = 60;

export function latticeOf(values: readonly PlaceValue[], field: Field): Lattice {
  const columns = distinct(values.map(({ across }) => across)).length;
  const rows = distinct(values.map(({ along }) => along)).length;
  const pitchMm = Math.sqrt((field.widthMm * field.depthMm) / Math.max(1, columns * rows));
  return { columns, rows, pitchMm, isFine: values.length >= finePlaces };
}

/** Ascending, apart by more than the thousandth part of the whole. */
function distinct(positions: readonly number[]): number[] {
  const out: number[] = [];
  for (const p of positions.toSorted((a, b) => a - b)) if (p - (out.at(-1) ?? -1) > 1e-3) out.push(p);
  return out;
}
