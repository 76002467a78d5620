import type { Triple } from '#craft/colour';
import { median } from '#craft/numerics';
import type { LabCell } from './types.js';

export interface BestRegion {
  readonly column: number;
  readonly row: number;
  readonly lab: Triple;
  readonly density: number;
}

/**
 * The darkest neighbourhood: where the median density over cells near each other is most. One cell alone, which dust or
 * chance may have darkened, never is the best.
 */
export function bestRegion(cells: readonly LabCell[], columns: number, rows: number): BestRegion {
  const reach = Math.max(1.5, 0.13 * Math.min(columns, rows));
  const near = (a: LabCell): LabCell[] =>
    cells.filter((b) => Math.hypot(b.column - a.column, b.row - a.row) <= reach);
  let best: { cell: LabCell; near: LabCell[]; density: number } | null = null;
  const full = Math.max(...cells.map((cell) => near(cell).length));
  for (const cell of cells) {
    const about = near(cell);
    if (2 * about.length < full) continue;
    const density = median(about.map((c) => c.density));
    if (best === null || density > best.density) best = { cell, near: about, density };
  }
  const { cell, near: about, density } = best!;
  const lab = [0, 1, 2].map((k) => median(about.map((c) => c.lab[k]!))) as unknown as Triple;
  return { column: cell.column, row: cell.row, lab, density };
}
