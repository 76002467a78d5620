import { expect, test } from 'vitest';
import { deviceRows } from './device-range.js';

const dark = [
  [0.2, 0.5, 0.9],
  [0.1, 0, 0.4],
  [0, 0.7, 1],
];
const bytes = [
  [255, 0, 10],
  [1, 0, 1],
  [128, 64, 200],
];

test('rows counted to 1 among rows counted to 255 are told, with the first of them', () => {
  expect(() => deviceRows([...bytes, ...dark], 'RGB', [])).toThrow(/Some rows count RGB from 0 to 1/);
  try {
    deviceRows([...bytes, ...dark], 'RGB', []);
  } catch (error) {
    expect(error).toMatchObject({ code: 'measurements.broken', where: 'row 4' });
  }
  // Two very dark patches may be just that, and so may codes of 0 and 1.
  expect(deviceRows([...bytes, ...dark.slice(0, 2)], 'RGB', [])).toHaveLength(5);
  expect(deviceRows([...bytes, [1, 0, 0], [0, 0, 1], [1, 1, 0]], 'RGB', [])).toHaveLength(6);
});

test('what the values are counted to can be said', () => {
  const remarks: string[] = [];
  expect(deviceRows([[51, 102, 0]], 'RGB', remarks, 255)).toEqual([[0.2, 0.4, 0]]);
  expect(remarks.join()).toContain('0 to 255');
  expect(() => deviceRows([[51, 102, 0]], 'RGB', [], 1)).toThrow(/beyond 1/);
});
