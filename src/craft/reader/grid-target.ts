import type { MeasurementTable } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import { Problem } from '#craft/problem';

/** A card or target whose patches stand in rows and columns, with their colours. */
export interface GridTarget {
  readonly columns: number;
  readonly rows: number;
  /** Row by row from A1; null where the file has no such patch. */
  readonly lab: readonly (Triple | null)[];
  /** A grey scale beside the field (GS0, GS1, …), from its first step; null: none. */
  readonly greyScale: readonly Triple[] | null;
}

/** Rows by letters, columns by numbers, as on the targets of ISO 12641 (from memory): A1 … L22, and GS0 … GS23. */
const cellName = /^([A-Z])[-_ ]?0*(\d{1,2})$/i;
const greyName = /^GS[-_ ]?0*(\d{1,2})$/i;
const fewestPatches = 8;

/** The name of a place in a target, counted from 0. */
export const cellLabel = (column: number, row: number): string =>
  `${String.fromCharCode(65 + row)}${column + 1}`;

/**
 * Where the patches of a target's file stand, by their names.
 * @throws Problem `measurements.broken` when there are no colours or the names do not say where the patches stand
 */
export function gridTargetOf(table: MeasurementTable): GridTarget {
  const { lab, sampleIds } = table;
  if (lab === null) {
    throw new Problem('measurements.broken', 'The file holds no colours of the target’s patches.', {
      remedy: 'Choose the file that came with the target or card; it has Lab, XYZ or spectra.',
    });
  }
  const cells = new Map<string, Triple>();
  const greys = new Map<number, Triple>();
  let columns = 0;
  let rows = 0;
  sampleIds.forEach((id, i) => {
    const grey = greyName.exec(id.trim());
    const cell = cellName.exec(id.trim());
    if (grey) {
      greys.set(Number(grey[1]), lab[i]!);
    } else if (cell) {
      const row = cell[1]!.toUpperCase().charCodeAt(0) - 65;
      const column = Number(cell[2]) - 1;
      if (column < 0) return;
      cells.set(`${column},${row}`, lab[i]!);
      columns = Math.max(columns, column + 1);
      rows = Math.max(rows, row + 1);
    }
  });
  const named = cells.size + greys.size;
  if (cells.size < fewestPatches || columns < 2 || rows < 2 || named < 0.8 * sampleIds.length) {
    throw new Problem(
      'measurements.broken',
      'The file does not say where the patches stand: they should be named by row and column, as A1, A2 … B1.',
      { remedy: 'Choose the file of the target or card in the picture, with its patches’ own names.' },
    );
  }
  const field = Array.from(
    { length: columns * rows },
    (_, i) => cells.get(`${i % columns},${Math.floor(i / columns)}`) ?? null,
  );
  if (cells.size < 0.7 * field.length) {
    throw new Problem(
      'measurements.broken',
      `The file names only ${cells.size} of the ${field.length} patches of a field of ${columns} by ${rows}.`,
      { remedy: 'Choose the whole file of the target or card.' },
    );
  }
  return { columns, rows, lab: field, greyScale: greyScaleOf(greys) };
}

/** Null unless all steps from 0 (or 1) on are there. */
function greyScaleOf(greys: ReadonlyMap<number, Triple>): Triple[] | null {
  const first = greys.has(0) ? 0 : 1;
  const steps = Array.from({ length: greys.size }, (_, i) => greys.get(first + i));
  return steps.length >= 6 && steps.every((step) => step !== undefined) ? (steps as Triple[]) : null;
}
