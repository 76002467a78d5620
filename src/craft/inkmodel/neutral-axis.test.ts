import { expect, it } from 'vitest';
import { neutralLift, nondecreasing } from './neutral-axis.js';

it('pools adjacent violators, worked by hand', () => {
  // 3 2 → 2.5 2.5; 6 → stays; 4 pulls 6 to 5; 5 stays at 5.
  expect([...nondecreasing([1, 3, 2, 6, 4, 5])]).toEqual([1, 2.5, 2.5, 5, 5, 5]);
  expect([...nondecreasing([5, 4, 3, 2, 1])]).toEqual([3, 3, 3, 3, 3]);
  expect([...nondecreasing([1, 2, 3])]).toEqual([1, 2, 3]);
});

it('lifts a dip so that lightness only rises, and leaves a rising axis alone', () => {
  const sound = Float64Array.from({ length: 33 }, (_, i) => 15 + 2.5 * i);
  expect(neutralLift(sound)).toEqual([]);
  const dip = sound.map((v, i) => v - (i > 4 && i < 9 ? 12 : 0));
  const lift = neutralLift(dip);
  const lifted = dip.map((v, i) => v + lift[i]!);
  for (let i = 1; i < lifted.length; i += 1) expect(lifted[i]!).toBeGreaterThan(lifted[i - 1]!);
});
