import { broken } from './broken.js';

/**
 * Device values to 0..1. Files count them to 1, 100 or 255; the largest value tells, and it is said.
 * @throws Problem `measurements.broken` for values outside all three
 */
export function deviceRows(rows: number[][], space: string, remarks: string[]): number[][] {
  let most = 0;
  let least = 0;
  for (const row of rows) {
    for (const v of row) {
      most = Math.max(most, v);
      least = Math.min(least, v);
    }
  }
  const range = most <= 1 ? 1 : most <= 100 ? 100 : most <= 255 ? 255 : null;
  if (range === null || least < 0) {
    broken(
      `The ${space} values run from ${least} to ${most}.`,
      'Export device values counted from 0 to 1, 0 to 100 or 0 to 255.',
    );
  }
  remarks.push(`${space} values are taken as counted from 0 to ${range}.`);
  return range === 1 ? rows : rows.map((row) => row.map((v) => v / range));
}
