import { expect, it } from 'vitest';
import { shareAlong } from './share-along.js';

// A plane: reading between its nodes is exact.
const seconds = [20, 50, 80];
const celsius = [190, 200];
const plane = (s: number, c: number) => 0.002 * s + 0.01 * (c - 190);
const field = {
  dwellSeconds: seconds,
  platenC: celsius,
  within: celsius.flatMap((c) => seconds.map((s) => plane(s, c))),
  densityShare: [],
  blackHue: [],
  edgeShare: [],
};

it('reads the field along either axis', () => {
  for (const [at, share] of shareAlong(field, 'time', 194)) expect(share).toBeCloseTo(plane(at, 194), 12);
  for (const [at, share] of shareAlong(field, 'temperature', 65))
    expect(share).toBeCloseTo(plane(65, at), 12);
  // Held at the ends.
  expect(shareAlong(field, 'time', 150)).toEqual(shareAlong(field, 'time', 190));
  expect(shareAlong(field, 'temperature', 300)).toEqual(shareAlong(field, 'temperature', 80));
});
