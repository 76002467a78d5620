import { expect, it } from 'vitest';
import { spreadOut } from './spread-out.js';

it('lays what coincides one below the other and leaves the rest', () => {
  expect(
    spreadOut(
      [
        [10, 50],
        [100, 50],
        [11, 50],
        [10, 51],
      ],
      20,
    ),
  ).toEqual([
    [10, 30],
    [100, 50],
    [10, 50],
    [10, 70],
  ]);
});
