import { broken } from './broken.js';

/** The value that stands for full: files count device values to 1, 100 or 255. */
export type DeviceFull = 1 | 100 | 255;

/** So many rows that look counted to 1 in a table counted further are no accident. */
const fewestOdd = 3;
const leastOddShare = 0.05;

/**
 * Device values to 0..1. The largest value tells what they are counted to, unless `full` says it; which is said.
 * @throws Problem `measurements.broken` for values outside all three, and for rows counted differently
 */
export function deviceRows(
  rows: number[][],
  space: string,
  remarks: string[],
  full?: DeviceFull,
): number[][] {
  let most = 0;
  let least = 0;
  for (const row of rows) {
    for (const v of row) {
      most = Math.max(most, v);
      least = Math.min(least, v);
    }
  }
  if (full !== undefined && most > full) {
    broken(
      `The ${space} values run to ${most}, beyond ${full}.`,
      'Say what they are counted to: 1, 100 or 255.',
    );
  }
  const range = full ?? (most <= 1 ? 1 : most <= 100 ? 100 : most <= 255 ? 255 : null);
  if (range === null || least < 0) {
    broken(
      `The ${space} values run from ${least} to ${most}.`,
      'Export device values counted from 0 to 1, 0 to 100 or 0 to 255.',
    );
  }
  if (full === undefined && range > 1 && space === 'RGB') {
    const small = rows.filter((row) => row.every((v) => v <= 1) && row.some((v) => !Number.isInteger(v)));
    if (small.length >= Math.max(fewestOdd, leastOddShare * rows.length)) {
      broken(
        `Some rows count ${space} from 0 to 1 and others to ${range}.`,
        'Bring all rows to one count; two files may have been put together.',
        `row ${rows.indexOf(small[0]!) + 1}`,
      );
    }
  }
  remarks.push(`${space} values are taken as counted from 0 to ${range}.`);
  return range === 1 ? rows : rows.map((row) => row.map((v) => v / range));
}
