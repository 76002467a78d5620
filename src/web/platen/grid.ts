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

/** 'back left', 'middle', 'front right'; for finer grids 'row 2 of 5 from the back, column 4 of 6 from the left'. */
export function placeName(column: number, row: number, columns: number, rows: number): string {
  const across = endWords(column, columns, ['left', 'middle', 'right']);
  const along = endWords(row, rows, ['back', 'middle', 'front']);
  if (across === null || along === null)
    return `row ${row + 1} of ${rows} from the back, column ${column + 1} of ${columns} from the left`;
  return across === along ? 'middle' : `${along} ${across}`;
}
