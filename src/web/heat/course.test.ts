import { expect, it } from 'vitest';
import { valueAt, within } from './course.js';

const seconds = [0, 10, 10, 30];
const values = [20, 120, 130, 190];

it('a course is straight between its points, and holds its ends', () => {
  expect(valueAt(seconds, values, 5)).toBe(70);
  expect(valueAt(seconds, values, 20)).toBe(160);
  expect(valueAt(seconds, values, -1)).toBe(20);
  expect(valueAt(seconds, values, 99)).toBe(190);
});

it('what is drawn ends at the moment it is drawn to', () => {
  expect(within(seconds, values, 20)).toEqual([
    [0, 20],
    [10, 120],
    [10, 130],
    [20, 160],
  ]);
});
