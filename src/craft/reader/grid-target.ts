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

/** @throws Problem `measurements.broken` when the ids do not say where the patches stand */
export function gridTargetOf(_table: MeasurementTable): GridTarget {
  throw new Problem('internal.fault', 'Not there yet.', { remedy: 'Wait.' });
}
