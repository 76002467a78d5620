import type { RectMm } from '#craft/sheet';
import type { RegistrationMark, SheetMaterial } from './types.js';

/**
 * Sizes, mm. The smallest patch on hard blanks is 24 pixels wide at 150 ppi, of which the middle 14 are read; on cloth
 * the threads (0.3 to 0.5 mm, common practice) want a mean over a good many of them. The gap shows the bare ground
 * everywhere, which tells how the light falls; it is wide enough to hold a pixel at 150 ppi that no neighbour touches.
 */
export const patchSizes: Readonly<
  Record<
    SheetMaterial,
    {
      readonly leastPatchMm: number;
      readonly mostPatchMm: number;
      readonly gapMm: number;
      /** About so far from one registration mark to the next. */
      readonly registrationMm: number;
    }
  >
> = {
  hard: { leastPatchMm: 4, mostPatchMm: 18, gapMm: 1, registrationMm: 45 },
  fabric: { leastPatchMm: 8, mostPatchMm: 28, gapMm: 1.6, registrationMm: 35 },
};

export interface CellGrid {
  readonly area: RectMm;
  readonly columns: number;
  readonly rows: number;
  readonly pitchMm: number;
  readonly gapMm: number;
  /** Cells that hold a registration mark, row by row. */
  readonly isRegistration: readonly boolean[];
  readonly freeCells: number;
}

/** The largest square cells of which `needed` find room beside the registration marks; null when none do. */
export function fitCells(room: RectMm, needed: number, material: SheetMaterial): CellGrid | null {
  const { leastPatchMm, mostPatchMm, gapMm } = patchSizes[material];
  const least = leastPatchMm + gapMm;
  const most = mostPatchMm + gapMm;
  // Only these pitches change how many columns or rows there are.
  const pitches = [most, least];
  for (const side of [room.widthMm, room.heightMm]) {
    for (let cells = 2; side / cells >= least; cells += 1) pitches.push(Math.min(most, side / cells));
  }
  for (const pitchMm of pitches.sort((a, b) => b - a)) {
    const grid = gridOf(room, pitchMm, material);
    if (grid && grid.freeCells >= needed) return grid;
  }
  return null;
}

function gridOf(room: RectMm, pitchMm: number, material: SheetMaterial): CellGrid | null {
  const { gapMm, registrationMm } = patchSizes[material];
  const columns = Math.floor(room.widthMm / pitchMm + 1e-9);
  const rows = Math.floor(room.heightMm / pitchMm + 1e-9);
  if (columns < 2 || rows < 2) return null;
  const across = lattice(columns, pitchMm, registrationMm);
  const along = lattice(rows, pitchMm, registrationMm);
  const isRegistration = Array.from(
    { length: columns * rows },
    (_, i) => across.has(i % columns) && along.has(Math.floor(i / columns)),
  );
  return {
    area: {
      xMm: room.xMm + (room.widthMm - columns * pitchMm) / 2,
      yMm: room.yMm + (room.heightMm - rows * pitchMm) / 2,
      widthMm: columns * pitchMm,
      heightMm: rows * pitchMm,
    },
    columns,
    rows,
    pitchMm,
    gapMm,
    isRegistration,
    freeCells: columns * rows - across.size * along.size,
  };
}

/** Both ends, and evenly between them. */
function lattice(cells: number, pitchMm: number, registrationMm: number): Set<number> {
  const steps = Math.max(1, Math.round((cells * pitchMm) / registrationMm));
  return new Set(Array.from({ length: steps + 1 }, (_, k) => Math.round((k * (cells - 1)) / steps)));
}

export function cellRect({ area, pitchMm, gapMm }: CellGrid, column: number, row: number): RectMm {
  return {
    xMm: area.xMm + column * pitchMm + gapMm / 2,
    yMm: area.yMm + row * pitchMm + gapMm / 2,
    widthMm: pitchMm - gapMm,
    heightMm: pitchMm - gapMm,
  };
}

/** Small enough that it may be two millimetres off its place without touching a neighbour. */
export function registrationMark(grid: CellGrid, column: number, row: number): RegistrationMark {
  const { xMm, yMm, widthMm, heightMm } = cellRect(grid, column, row);
  const sideMm = Math.min(5, Math.max(1.8, 0.35 * widthMm));
  return { xMm: xMm + widthMm / 2, yMm: yMm + heightMm / 2, sideMm };
}
