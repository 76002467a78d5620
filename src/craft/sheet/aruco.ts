import type { Mark, RectMm } from './plan.js';

/**
 * Corner markers: four of OpenCV's DICT_4X4_50 (the patterns are tested against OpenCV's own drawing of them).
 *
 * These four of the first twenty-four lie furthest apart: every one differs in at least 6 of its 16 cells from
 * each turned or mirrored form of itself and of the three others. So one marker alone tells which corner it is,
 * how the sheet is turned and whether it is seen mirrored, even with two cells misread.
 */
export const cornerMarkerIds = { topLeft: 7, topRight: 11, bottomRight: 19, bottomLeft: 20 } as const;
export type Corner = keyof typeof cornerMarkerIds;

/** 1 = white, rows from the top, as it should read. */
const patterns: Readonly<Record<number, readonly string[]>> = {
  7: ['1100', '0100', '1111', '0010'],
  11: ['0001', '0001', '1010', '0111'],
  19: ['0111', '0110', '1010', '1111'],
  20: ['1000', '0110', '1000', '1011'],
};

/** Cells along one side, with the black rim of one cell. */
export const markerCells = 6;

/** The marker's 6 × 6 cells row by row, true = black. */
export function cornerMarkerCells(id: number): boolean[] {
  const inner = patterns[id] ?? [];
  const rim = '0'.repeat(markerCells);
  return [rim, ...inner.map((row) => `0${row}0`), rim].flatMap((row) => [...row].map((cell) => cell === '0'));
}

export function cornerMark(id: number, rect: RectMm): Mark {
  return {
    kind: 'cells',
    rect,
    columns: markerCells,
    rows: markerCells,
    cells: cornerMarkerCells(id),
    role: 'corner',
  };
}
