/** A grid of values over a platen, row by row, back row first. */
export interface PlatenGrid {
  readonly columns: number;
  readonly rows: number;
  readonly values: readonly (number | null)[];
}

/**
 * The grid told at fewer places: each figure the mean of the cells in its part of the platen, with the middle of that
 * part (0..1). Null where a part holds no value.
 */
export function coarser(
  grid: PlatenGrid,
  columns: number,
  rows: number,
): { across: number; along: number; value: number | null }[] {
  const across = Math.min(columns, grid.columns);
  const along = Math.min(rows, grid.rows);
  const sums = Array.from({ length: across * along }, () => ({ sum: 0, count: 0 }));
  grid.values.forEach((value, i) => {
    if (value === null) return;
    const column = Math.floor((((i % grid.columns) + 0.5) / grid.columns) * across);
    const row = Math.floor(((Math.floor(i / grid.columns) + 0.5) / grid.rows) * along);
    const at = sums[row * across + column];
    if (at) {
      at.sum += value;
      at.count += 1;
    }
  });
  return sums.map(({ sum, count }, i) => ({
    across: ((i % across) + 0.5) / across,
    along: (Math.floor(i / across) + 0.5) / along,
    value: count === 0 ? null : sum / count,
  }));
}

/**
 * Lone cells that hold no value (marks of the sheet stand there) filled in by the mean of those round them, where at
 * least four are known; what is unread more widely stays so.
 */
export function filledIn(grid: PlatenGrid): PlatenGrid {
  const at = (column: number, row: number) =>
    column < 0 || row < 0 || column >= grid.columns || row >= grid.rows
      ? null
      : (grid.values[row * grid.columns + column] ?? null);
  const values = grid.values.map((value, i) => {
    if (value !== null) return value;
    const [column, row] = [i % grid.columns, Math.floor(i / grid.columns)];
    const round = [-1, 0, 1].flatMap((dy) =>
      [-1, 0, 1].flatMap((dx) => {
        const near = at(column + dx, row + dy);
        return near === null ? [] : [near];
      }),
    );
    // In a corner of the sheet there are but three.
    const corner = (column === 0 || column === grid.columns - 1) && (row === 0 || row === grid.rows - 1);
    return round.length >= (corner ? 3 : 4) ? round.reduce((sum, v) => sum + v, 0) / round.length : null;
  });
  return { ...grid, values };
}

/** Values between which the shades run; at least `least` apart, so that small differences do not look large. */
export function spanOf(
  values: readonly (number | null)[],
  least: number,
  fromNought: boolean,
): readonly [number, number] {
  const known = values.filter((value) => value !== null);
  if (known.length === 0) return [0, least];
  const low = fromNought ? 0 : Math.min(...known);
  const high = Math.max(...known);
  if (high - low >= least) return [low, high];
  return fromNought ? [0, least] : [(low + high - least) / 2, (low + high + least) / 2];
}

const endWords = (i: number, of: number, words: readonly [string, string, string]): string | null =>
  of === 1 ? words[1] : i === 0 ? words[0] : i === of - 1 ? words[2] : of === 3 ? words[1] : null;

/** 'back left', 'middle', 'front right'; for finer grids 'row 2 of 5 from the ${back}, column 4 of 6 from the left'. */
export function placeName(
  column: number,
  row: number,
  columns: number,
  rows: number,
  [back, front]: readonly [string, string] = ['back', 'front'],
): string {
  const across = endWords(column, columns, ['left', 'middle', 'right']);
  const along = endWords(row, rows, [back, 'middle', front]);
  if (across === null || along === null)
    return `row ${row + 1} of ${rows} from the back, column ${column + 1} of ${columns} from the left`;
  return across === along ? 'middle' : `${along} ${across}`;
}
