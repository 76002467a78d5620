import { labFromXyz, xyzFromLab } from '#craft/colour';
import { clipUnit } from './clip.js';
import { deviceSpace, findShaper, hasOwnTable, isShaper, sideFromPcs, sideToPcs } from './device-side.js';
import type { InPlace } from './lut-function.js';
import { labToXyzInPlace, xyzToLabInPlace } from './pcs-encoding.js';
import { scaleBetweenBlacks } from './pcs-scale.js';
import type { IccProfile, Intent } from './types.js';

type Xyz = readonly [number, number, number];
type MappingIntent = Exclude<Intent, 'absolute'>;

const nought: Xyz = [0, 0, 0];

/** The reference medium's black of version 4 perceptual tables: ICC.1:2022 6.3.3 (figures as in lcms2.h). */
export const perceptualBlack: Xyz = [0.00336, 0.0034731, 0.00287];

/**
 * Black of the source, XYZ relative to white, neutral, L* at most 50 (ISO 18619, and Little CMS where that is silent):
 * the fixed black for version 4 perceptual and saturation tables; for CMYK printers the black that perceptual mapping
 * reaches (it keeps to the ink limit); otherwise the darkest colorant.
 */
export function sourceBlackPoint(profile: IccProfile, intent: MappingIntent): Xyz {
  if (profile.header.version.major >= 4 && intent !== 'relative') {
    return isShaper(profile) ? darkestColorant(profile, 'relative') : perceptualBlack;
  }
  if (intent === 'relative' && profile.header.deviceClass === 'prtr' && deviceSpace(profile) === 'CMYK') {
    return blackOfPerceptualMapping(profile);
  }
  return darkestColorant(profile, intent);
}

/**
 * Black of the destination. For tables it is read off the round trip of an L* ramp: where the curve leaves the level
 * stretch at the black end (ISO 18619, 6.3; Little CMS the same).
 */
export function destinationBlackPoint(profile: IccProfile, intent: MappingIntent): Xyz {
  const fixed = profile.header.version.major >= 4 && intent !== 'relative';
  if (fixed || !hasOwnTable(profile, 'B2A', intent)) return sourceBlackPoint(profile, intent);

  const initial =
    intent === 'relative' ? labFromXyz(sourceBlackPoint(profile, intent)) : ([0, 0, 0] as const);
  const roundTrip = labRoundTrip(profile, intent);
  if (roundTrip === null) return nought;
  const ramp = new Float64Array(256);
  const io = new Float64Array(16);
  const bound = (v: number): number => Math.min(50, Math.max(-50, v));
  for (let i = 0; i < 256; i += 1) {
    io[0] = (i * 100) / 255;
    io[1] = bound(initial[1]);
    io[2] = bound(initial[2]);
    roundTrip(io);
    ramp[i] = io[0];
  }
  for (let i = 254; i > 0; i -= 1) ramp[i] = Math.min(ramp[i]!, ramp[i + 1]!);
  const lowest = ramp[0]!;
  const highest = ramp[255]!;
  if (!(lowest < highest)) return nought;

  if (intent === 'relative') {
    const straight = ramp.every((out, i) => {
      const wanted = (i * 100) / 255;
      return wanted <= lowest + 0.2 * (highest - lowest) || Math.abs(wanted - out) < 4;
    });
    if (straight) return xyzFromLab(initial);
  }
  const [low, high] = intent === 'relative' ? [0.1, 0.5] : [0.03, 0.25];
  const xs: number[] = [];
  const ys: number[] = [];
  for (let i = 0; i < 256; i += 1) {
    const y = (ramp[i]! - lowest) / (highest - lowest);
    if (y >= low && y < high) {
      xs.push((i * 100) / 255);
      ys.push(y);
    }
  }
  if (xs.length < 3) return nought;
  return xyzFromLab([Math.max(0, rootOfParabola(xs, ys)), initial[1], initial[2]]);
}

function darkestColorant(profile: IccProfile, intent: MappingIntent): Xyz {
  if (!hasOwnTable(profile, 'A2B', intent) && !isShaper(profile)) return nought;
  const side = sideToPcs(profile, intent);
  const io = new Float64Array(16);
  io.fill(deviceSpace(profile) === 'CMYK' ? 1 : 0, 0, 4);
  side.run(io);
  if (side.pcs === 'XYZ') xyzToLabInPlace(io);
  return neutralBlack(io[0]!);
}

/** Lab black → perceptual table → device → colorimetric table → Lab. */
function blackOfPerceptualMapping(profile: IccProfile): Xyz {
  if (!hasOwnTable(profile, 'A2B', 'perceptual') && findShaper(profile) === undefined) return nought;
  const roundTrip = labRoundTrip(profile, 'perceptual');
  if (roundTrip === null) return nought;
  const io = new Float64Array(16);
  roundTrip(io);
  return neutralBlack(io[0]!);
}

function neutralBlack(lightness: number): Xyz {
  return xyzFromLab([Math.min(50, Math.max(0, lightness)), 0, 0]);
}

/** Lab → device under the intent → Lab colorimetric, in place; null if the profile lacks a direction. */
function labRoundTrip(profile: IccProfile, intent: MappingIntent): InPlace | null {
  if (!canGo(profile)) return null;
  const down = sideFromPcs(profile, intent);
  const up = sideToPcs(profile, 'relative');
  // Version 4 perceptual tables expect black to lie at the reference black, and Little CMS puts it there.
  const toBlack =
    profile.header.version.major >= 4 && intent !== 'relative'
      ? scaleBetweenBlacks(nought, perceptualBlack)
      : null;
  return (io) => {
    if (toBlack !== null) {
      labToXyzInPlace(io);
      toBlack(io);
      if (down.pcs === 'Lab') xyzToLabInPlace(io);
    } else if (down.pcs === 'XYZ') {
      labToXyzInPlace(io);
    }
    down.run(io);
    for (let i = 0; i < 4; i += 1) io[i] = clipUnit(io[i]!);
    up.run(io);
    if (up.pcs === 'XYZ') xyzToLabInPlace(io);
  };
}

function canGo(profile: IccProfile): boolean {
  const has = (direction: 'A2B' | 'B2A'): boolean =>
    hasOwnTable(profile, direction, 'perceptual') || hasOwnTable(profile, direction, 'relative');
  return isShaper(profile) || (has('A2B') && has('B2A'));
}

/** Least squares y = a x² + b x + c, then where it meets zero on the rising side, kept to 0..50. */
function rootOfParabola(xs: readonly number[], ys: readonly number[]): number {
  if (xs.length < 4) return 0;
  const s = [0, 0, 0, 0, 0];
  const t = [0, 0, 0];
  xs.forEach((x, i) => {
    for (let k = 0; k <= 4; k += 1) s[k] = s[k]! + x ** k;
    for (let k = 0; k <= 2; k += 1) t[k] = t[k]! + ys[i]! * x ** k;
  });
  const [s0 = 0, s1 = 0, s2 = 0, s3 = 0, s4 = 0] = s;
  const [t0 = 0, t1 = 0, t2 = 0] = t;
  const determinant = s0 * (s2 * s4 - s3 * s3) - s1 * (s1 * s4 - s2 * s3) + s2 * (s1 * s3 - s2 * s2);
  if (Math.abs(determinant) < 1e-12) return 0;
  // Cramer's rule on the normal equations.
  const c = (t0 * (s2 * s4 - s3 * s3) - s1 * (t1 * s4 - s3 * t2) + s2 * (t1 * s3 - s2 * t2)) / determinant;
  const b = (s0 * (t1 * s4 - s3 * t2) - t0 * (s1 * s4 - s3 * s2) + s2 * (s1 * t2 - t1 * s2)) / determinant;
  const a = (s0 * (s2 * t2 - t1 * s3) - s1 * (s1 * t2 - t1 * s2) + t0 * (s1 * s3 - s2 * s2)) / determinant;
  const keep = (v: number): number => Math.max(0, Math.min(50, v));
  if (Math.abs(a) < 1e-10) return keep(-c / b);
  const discriminant = b * b - 4 * a * c;
  return discriminant <= 0 ? 0 : keep((-b + Math.sqrt(discriminant)) / (2 * a));
}
