import { expect, it } from 'vitest';
import { coarser, filledIn, placeName, spanOf } from './grid.js';

it('a finer map is told at fewer places by means that keep the mean of the whole', () => {
  const values = Array.from({ length: 12 * 8 }, (_, i) => 190 + (i % 12) + Math.floor(i / 12) * 0.5);
  const told = coarser({ columns: 12, rows: 8, values }, 4, 2);
  expect(told).toHaveLength(8);
  const mean = (list: readonly number[]) => list.reduce((sum, v) => sum + v, 0) / list.length;
  expect(mean(told.map((one) => one.value ?? 0))).toBeCloseTo(mean(values), 10);
  // A plane's mean over a part is its value in that part's middle.
  for (const { across, along, value } of told) {
    expect(value).toBeCloseTo(190 + across * 12 - 0.5 + (along * 8 - 0.5) * 0.5, 10);
  }
});

it('unread places stay unread, and a coarse grid is not made finer', () => {
  expect(coarser({ columns: 2, rows: 1, values: [null, 5] }, 6, 6)).toEqual([
    { across: 0.25, along: 0.5, value: null },
    { across: 0.75, along: 0.5, value: 5 },
  ]);
});

it('a lone mark is filled in from round it, a wide gap is not', () => {
  const plane = Array.from({ length: 49 }, (_, i) => (i % 7) + Math.floor(i / 7));
  const lone = filledIn({
    columns: 7,
    rows: 7,
    values: plane.map((v, i) => (i === 24 || i === 0 ? null : v)),
  });
  // The mean of a plane round a place is the plane there.
  expect(lone.values[24]).toBeCloseTo(plane[24] ?? Number.NaN, 10);
  expect(lone.values[0]).not.toBeNull();
  const gap = filledIn({
    columns: 7,
    rows: 7,
    values: plane.map((v, i) => (Math.floor(i / 7) >= 2 ? null : v)),
  });
  expect(gap.values[5 * 7 + 3]).toBeNull();
});

it('small differences are not blown up', () => {
  expect(spanOf([199, 201, null], 6, false)).toEqual([197, 203]);
  expect(spanOf([190, 204], 6, false)).toEqual([190, 204]);
  expect(spanOf([0.1, 0.4], 3, true)).toEqual([0, 3]);
  expect(spanOf([], 3, true)).toEqual([0, 3]);
});

it('places are named as one stands before the press', () => {
  expect(placeName(0, 0, 3, 3)).toBe('back left');
  expect(placeName(1, 1, 3, 3)).toBe('middle');
  expect(placeName(2, 1, 3, 3)).toBe('middle right');
  expect(placeName(1, 2, 3, 3)).toBe('front middle');
  expect(placeName(1, 1, 4, 3)).toBe('row 2 of 3 from the back, column 2 of 4 from the left');
});
