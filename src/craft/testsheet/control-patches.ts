import type { Random } from '#craft/numerics';
import type { Rgb8 } from '#craft/sheet';

/**
 * Colours printed several times over the sheet. Where their likes differ from place to place, it was the press (or
 * the paper, or the printer), not the colour. Greys take the most dye changes; the tinted ones tell whether one ink
 * suffers more than the others. Most needed first.
 */
const controls: readonly Rgb8[] = [
  [128, 128, 128],
  [0, 0, 0],
  [255, 255, 255],
  [64, 64, 64],
  [192, 192, 192],
  [220, 70, 60],
  [60, 150, 80],
  [70, 80, 190],
];

export interface ControlKind {
  readonly rgb: Rgb8;
  readonly copies: number;
}

/** About an eighth of the sheet, never fewer than four of a kind. */
export function controlKinds(patchCount: number): ControlKind[] {
  const kinds = patchCount < 60 ? 3 : patchCount < 150 ? 5 : 8;
  const copies = Math.min(14, Math.max(4, Math.round((0.125 * patchCount) / kinds)));
  return controls.slice(0, kinds).map((rgb) => ({ rgb, copies }));
}

export interface Cell {
  readonly column: number;
  readonly row: number;
}

/**
 * For each kind in turn the cells that lie furthest from those it has already (farthest-point sampling, Gonzalez
 * 1985), a little away from the other kinds too. Taken cells leave `free`.
 * @returns cells of each kind
 */
export function spreadControls(free: Cell[], kinds: readonly ControlKind[], random: Random): Cell[][] {
  const taken: Cell[] = [];
  return kinds.map(({ copies }) => {
    const own: Cell[] = [];
    while (own.length < copies && free.length > 0) {
      let best = 0;
      let bestScore = -1;
      if (own.length === 0) best = random.integer(free.length);
      else {
        free.forEach((cell, i) => {
          const score = nearest(cell, own) + 0.15 * nearest(cell, taken);
          if (score > bestScore) {
            bestScore = score;
            best = i;
          }
        });
      }
      const [cell] = free.splice(best, 1);
      own.push(cell!);
      taken.push(cell!);
    }
    return own;
  });
}

function nearest(cell: Cell, others: readonly Cell[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (const other of others) {
    const square = (cell.column - other.column) ** 2 + (cell.row - other.row) ** 2;
    if (square < least) least = square;
  }
  return Math.sqrt(least);
}
