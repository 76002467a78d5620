import type { FeedReading, ScanLengths } from './types.js';

/**
 * Common practice: desktop scanners are true to about 1 part in 1000 each way, and differ between their two ways by as
 * much. Taken as one standard deviation of the ratio, percent.
 */
const scannerPercentSd = 0.1;
/** What no repetition brings below: paper swells, and a scanner's travel repeats to some 1 in 10 000 (common practice). */
const leastPercentSd = 0.01;
/** Two scans count as turned by a quarter when they differ from it by no more, degrees. */
const turnSlack = 15;

/**
 * Lengths along the feed against lengths across it.
 *
 * One scan cannot tell a feed that is 0.2 % too long from a scanner whose carriage runs 0.2 % too slow: both make the
 * sheet longer that way. Turned by a quarter, the sheet's feed lies across the scanner's carriage: with r₁ and r₂ the
 * ratios along/across of the sheet in the two scans, f the feed's error and s the scanner's, r₁ = (1+f)(1+s) and
 * r₂ = (1+f)/(1+s), so (1+f)² = r₁·r₂ and (1+s)² = r₁/r₂.
 *
 * @param scans one scan of a sheet, or several of the same sheet
 * @param knownScannerPercent lengths along the picture's height against its width, from a ruler or an earlier pair
 */
export function feedError(
  scans: readonly [ScanLengths, ...ScanLengths[]],
  knownScannerPercent?: number,
): FeedReading {
  const [first] = scans;
  const partner = scans.find((other) => isQuarter(first.turnDegrees, other.turnDegrees));
  const r1 = ratio(first);
  if (partner) {
    const r2 = ratio(partner);
    const scanner = Math.sqrt(r1 / r2) - 1;
    return {
      errorPercent: 100 * (Math.sqrt(r1 * r2) - 1),
      uncertaintyPercent: Math.hypot(100 * first.ratioSd, 100 * partner.ratioSd, 2 * leastPercentSd),
      from: 'two-scans',
      scannerPercent: 100 * (isUpright(first.turnDegrees) ? scanner : 1 / (1 + scanner) - 1),
    };
  }
  if (knownScannerPercent !== undefined && isSquare(first.turnDegrees)) {
    const s = 1 + knownScannerPercent / 100;
    return {
      errorPercent: 100 * ((isUpright(first.turnDegrees) ? r1 / s : r1 * s) - 1),
      uncertaintyPercent: 2 * Math.hypot(100 * first.ratioSd, leastPercentSd),
      from: 'known-scanner',
      scannerPercent: knownScannerPercent,
    };
  }
  return {
    errorPercent: 100 * (r1 - 1),
    uncertaintyPercent: 2 * Math.hypot(100 * first.ratioSd, scannerPercentSd),
    from: 'one-scan',
    scannerPercent: null,
  };
}

const ratio = ({ acrossPixelsPerMm, alongPixelsPerMm }: ScanLengths): number =>
  alongPixelsPerMm / acrossPixelsPerMm;

/** Degrees between two lines, 0 to 90: which end is up does not matter to a length. */
const between = (a: number, b: number): number => {
  const turn = Math.abs(a - b) % 180;
  return Math.min(turn, 180 - turn);
};
const isQuarter = (a: number, b: number): boolean =>
  between(a, b) > 90 - turnSlack && isSquare(a) && isSquare(b);
const isUpright = (turn: number): boolean => between(turn, 0) < 45;
const isSquare = (turn: number): boolean => Math.min(between(turn, 0), between(turn, 90)) < turnSlack;
