import { median } from '#craft/numerics';
import { luminance, type SampledPicture } from '#craft/patchreading';
import { mapPoint, type PlaneMap } from '#craft/reading';
import type { HealthTint } from '#craft/testsheet';
import { findBand } from './banding.js';
import { channelAt, scaleAt } from './channel.js';
import type { BandingReading, GrainReading, Measured } from './types.js';

/** Between places of the strip; grain is told from means over squares of this side. */
const placeMm = 0.1;
/** ISO/IEC 13660 (from memory) parts grain from mottle by tiles of about this side. */
const tileMm = 1.27;
const insetMm = 0.8;
/** Periods below are the halftone's and the drops' own. */
const leastPeriodMm = 0.6;
/** A feed's errors average out to about this share of a pass's height; periods closer than this match. */
const matchShare = 0.04;
/** Fewer pixels a place: the picture says nothing of bands so fine. */
const leastPixelsPerMm = 5;

/** Bands along the feed and grain of a tint, in L* of the reader's own light, the bare strip beside it being white. */
export function readTint(
  picture: SampledPicture,
  map: PlaneMap,
  tint: HealthTint,
  passHeightMm: number | undefined,
): { banding: Measured<BandingReading>; grain: Measured<GrainReading> } {
  const { rect, ground } = tint;
  const scale = scaleAt(map, { x: rect.xMm + rect.widthMm / 2, y: rect.yMm + rect.heightMm / 2 });
  const no = (because: string) => ({
    banding: { isMeasured: false, because } as const,
    grain: { isMeasured: false, because } as const,
  });
  if (Math.min(scale.across, scale.along) < leastPixelsPerMm) {
    return no(`the picture shows only ${scale.along.toFixed(1)} pixels a millimetre`);
  }
  const own = lightGrid(picture, map, rect);
  const bare = lightGrid(picture, map, ground);
  if (!own || !bare) return no('the strip lies outside the picture');
  const white = median(Array.from(bare.values));
  if (!(white > 0.02)) return no('the bare paper beside it is black in the picture');
  const lightness = own.values.map((v) => lStar(v / white));
  const profile = rowMeans(lightness, own.columns);
  const bareProfile = rowMeans(
    bare.values.map((v) => lStar(v / white)),
    bare.columns,
  );
  const { band, limit } = findBand(profile, placeMm, leastPeriodMm);
  const theirs = findBand(bareProfile, placeMm, leastPeriodMm).band;
  const isReaders =
    band !== null &&
    theirs !== null &&
    Math.abs(theirs.period / band.period - 1) < 0.05 &&
    theirs.amplitude > 0.4 * band.amplitude;
  const banding: Measured<BandingReading> = {
    isMeasured: true,
    amplitudeL: band?.amplitude ?? 0,
    periodMm: band?.period ?? null,
    limitL: limit,
    matchesPass: band && passHeightMm ? matching(band.period, passHeightMm) : null,
    isReaders,
  };
  const mine = grainOf(lightness, own.columns);
  const noise = grainOf(
    bare.values.map((v) => lStar(v / white)),
    bare.columns,
  );
  // The bare strip shows the reader's noise and the paper's own; what is beyond them is the print's.
  const grain = {
    grainL: Math.sqrt(Math.max(0, mine.grainL ** 2 - noise.grainL ** 2)),
    mottleL: mine.mottleL,
  };
  return { banding, grain: { isMeasured: true, ...grain } };
}

function matching(periodMm: number, passMm: number): 'pass' | 'two-passes' | null {
  if (Math.abs(periodMm / passMm - 1) < matchShare) return 'pass';
  return Math.abs(periodMm / (2 * passMm) - 1) < matchShare ? 'two-passes' : null;
}

/** CIE 15, from relative luminance. */
const lStar = (y: number): number =>
  y > 216 / 24389 ? 116 * Math.cbrt(y) - 16 : (24389 / 27) * Math.max(0, y);

/** Mean luminance of squares of `placeMm`, row by row down the strip; null when it leaves the picture. */
function lightGrid(
  picture: SampledPicture,
  map: PlaneMap,
  rect: HealthTint['rect'],
): { values: Float64Array; columns: number } | null {
  const inset = Math.min(insetMm, 0.2 * rect.widthMm);
  const columns = Math.floor((rect.widthMm - 2 * inset) / placeMm);
  const rows = Math.floor((rect.heightMm - 2 * insetMm) / placeMm);
  const values = new Float64Array(columns * rows);
  const times = 3;
  for (let j = 0; j < rows; j += 1) {
    for (let i = 0; i < columns; i += 1) {
      let sum = 0;
      for (let k = 0; k < times * times; k += 1) {
        const place = {
          x: rect.xMm + inset + (i + ((k % times) + 0.5) / times) * placeMm,
          y: rect.yMm + insetMm + (j + (Math.floor(k / times) + 0.5) / times) * placeMm,
        };
        const { x, y } = mapPoint(map, place);
        sum += luminance([
          channelAt(picture, 0, x, y),
          channelAt(picture, 1, x, y),
          channelAt(picture, 2, x, y),
        ]);
      }
      values[j * columns + i] = sum / times ** 2;
    }
  }
  return values.some(Number.isNaN) ? null : { values, columns };
}

/** The middle half of each row's places: dust and threads are not followed. */
function rowMeans(values: Float64Array, columns: number): Float64Array {
  return Float64Array.from({ length: values.length / columns }, (_, j) => {
    const row = values.slice(j * columns, (j + 1) * columns).sort();
    const middle = row.subarray(columns >> 2, columns - (columns >> 2));
    return middle.reduce((sum, v) => sum + v, 0) / middle.length;
  });
}

function grainOf(values: Float64Array, columns: number): { grainL: number; mottleL: number } {
  const side = Math.min(Math.round(tileMm / placeMm), columns);
  const rows = values.length / columns;
  const means: number[] = [];
  const variances: number[] = [];
  for (let top = 0; top + side <= rows; top += side) {
    for (let left = 0; left + side <= columns; left += side) {
      let [sum, squares] = [0, 0];
      for (let j = top; j < top + side; j += 1) {
        for (let i = left; i < left + side; i += 1) {
          sum += values[j * columns + i]!;
          squares += values[j * columns + i]! ** 2;
        }
      }
      const mean = sum / side ** 2;
      means.push(mean);
      variances.push(Math.max(0, squares / side ** 2 - mean ** 2));
    }
  }
  const middle = median(means);
  // Medians: a speck of dust spoils one tile.
  return {
    grainL: Math.sqrt(median(variances)),
    mottleL: 1.4826 * median(means.map((mean) => Math.abs(mean - middle))),
  };
}
