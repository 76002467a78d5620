import { allMethods } from './learn.js';
import type { ReaderMapData } from './types.js';

/** More pairs than this are never kept. */
const mostPairs = 5000;
const largestGrid = 33;

/** Whether what was read from JSON is a whole map. */
export function isReaderMapData(value: unknown): value is ReaderMapData {
  if (!isRecord(value) || value.format !== 'dyewright-reader-map' || value.version !== 1) return false;
  const { grade, how, expectedError, remarks } = value;
  if (grade !== 'B' && grade !== 'C' && grade !== 'D') return false;
  if (!isRecord(how) || !isRecord(expectedError) || !isList(remarks)) return false;
  const { meanDeltaE00, p95DeltaE00, restsOn } = expectedError;
  if (!numbers([meanDeltaE00, p95DeltaE00], 2) || (restsOn !== 'calibration' && restsOn !== 'published')) {
    return false;
  }
  return how.kind === 'learnt' ? isLearnt(how) : how.kind === 'tag' && isTag(how);
}

function isLearnt(how: Record<string, unknown>): boolean {
  const { rgb, lab, weight, method, process, widening, ridge, beyondSd, gain, reach } = how;
  if (!isList(rgb) || rgb.length < 4 || rgb.length > mostPairs || !isList(lab)) return false;
  const processes =
    method === 'process'
      ? isList(process) && process.length === 3 && process.every(isProcess)
      : process === null;
  return (
    allMethods.some((name) => name === method) &&
    processes &&
    rgb.every((row) => numbers(row, 3)) &&
    lab.length === rgb.length &&
    lab.every((row) => numbers(row, 3)) &&
    numbers(weight, rgb.length, (v) => v > 0) &&
    numbers(widening, 3, (v) => v > 0) &&
    numbers([ridge, beyondSd], 2, (v) => v >= 0) &&
    numbers([gain, reach], 2, (v) => v > 0)
  );
}

const isProcess = (value: unknown): boolean =>
  isRecord(value) &&
  numbers(value.reach, 3, (v) => v > 0) &&
  numbers([value.sd, value.noiseSd], 2, (v) => v > 0);

function isTag({ matrix, grid, scale, sdLab }: Record<string, unknown>): boolean {
  const sizes = isRecord(grid) && Number.isInteger(grid.size) ? (grid.size as number) : 0;
  const table = sizes >= 2 && sizes <= largestGrid && isRecord(grid) && numbers(grid.lab, 3 * sizes ** 3);
  return (
    (numbers(matrix, 9) ? grid === null : matrix === null && table) &&
    numbers(scale, 3, (v) => v > 0) &&
    numbers(sdLab, 3, (v) => v > 0)
  );
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isList = (value: unknown): value is unknown[] => Array.isArray(value);
const numbers = (value: unknown, length: number, fits: (v: number) => boolean = () => true): boolean =>
  isList(value) && value.length === length && value.every((v) => Number.isFinite(v) && fits(v as number));
