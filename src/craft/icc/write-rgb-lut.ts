import { deltaE00 } from '#craft/colour';
import { encodeProfile, type UtcMoment } from './encode-profile.js';
import { identityCurve } from './read-curve.js';
import type { IccCurve, IccGrid, IccLut, IccProfile, IccTag } from './types.js';

type Triple = readonly [number, number, number];

/** Functions that are sampled into the tables: what the printer does, and what to send it. Lab is D50 2°, media-relative. */
export interface RgbLutTables {
  /** Printer RGB 0..1 → Lab. */
  readonly a2b: (rgb: Triple) => Triple;
  /** Lab → printer RGB 0..1. */
  readonly b2a: (lab: Triple) => Triple;
}

export interface RgbLutProfileSpec {
  readonly version: 2 | 4;
  /**
   * 'lut16' and 'lut8' in both; 'mAB' (lutAToB and lutBToA) only in version 4. Default lut16. With 'lut8' the neutral axis
   * falls between two codes, so that paper white may come out two codes short: for small files and checks only.
   */
  readonly encoding?: 'lut16' | 'lut8' | 'mAB';
  readonly description: string;
  readonly copyright: string;
  readonly perceptual: RgbLutTables;
  readonly relative: RgbLutTables;
  readonly saturation: RgbLutTables;
  /** Media white as measured, XYZ with Y of the perfect diffuser = 1, under D50. */
  readonly mediaWhiteXyz: Triple;
  /** True where a Lab colour is outside what the device reaches; absent: worked out from the relative tables. */
  readonly outside?: (lab: Triple) => boolean;
  /** Default 17 (device → Lab) and 33 (Lab → device). */
  readonly a2bGridPoints?: number;
  readonly b2aGridPoints?: number;
  /** UTC, for the header; the clock is the caller's. */
  readonly createdAt?: UtcMoment;
}

type Encoding = 'lut16' | 'lut8' | 'mAB';

/** Round trips further than this (ΔE00) count as outside in the gamut tag. */
const outsideDeltaE00 = 3;

/**
 * An output-class RGB profile with tables for three intents, Lab PCS (ICC.1:2001-04 6.3.3.2; ICC.1:2022 8.5.3). Intents
 * given the very same functions share one table. The white of the a2b functions must be Lab 100, 0, 0.
 */
export function writeRgbLutProfile(spec: RgbLutProfileSpec): Uint8Array {
  const encoding = spec.encoding ?? 'lut16';
  if (encoding === 'mAB' && spec.version !== 4) throw new RangeError('version 2 has no lutAToB');
  const a2bPoints = spec.a2bGridPoints ?? 17;
  const b2aPoints = spec.b2aGridPoints ?? 33;
  const once = shareByFunction<IccTag>();
  const a2b = (tables: RgbLutTables): IccTag =>
    once(tables.a2b, () => deviceToLabTable(tables.a2b, a2bPoints, encoding));
  const b2a = (tables: RgbLutTables): IccTag =>
    once(tables.b2a, () => labToDeviceTable(tables.b2a, b2aPoints, encoding));
  const outside =
    spec.outside ??
    ((lab: Triple) => deltaE00(lab, spec.relative.a2b(spec.relative.b2a(lab))) > outsideDeltaE00);
  const profile: IccProfile = {
    header: {
      byteLength: 0,
      version: spec.version === 4 ? { major: 4, minor: 4, fix: 0 } : { major: 2, minor: 4, fix: 0 },
      deviceClass: 'prtr',
      colourSpace: 'RGB',
      pcs: 'Lab',
      renderingIntent: 0,
    },
    tags: new Map<string, IccTag>([
      ['desc', { kind: 'text', text: spec.description }],
      ['cprt', { kind: 'text', text: spec.copyright }],
      ['wtpt', { kind: 'xyz', xyz: spec.mediaWhiteXyz }],
      ['A2B0', a2b(spec.perceptual)],
      ['A2B1', a2b(spec.relative)],
      ['A2B2', a2b(spec.saturation)],
      ['B2A0', b2a(spec.perceptual)],
      ['B2A1', b2a(spec.relative)],
      ['B2A2', b2a(spec.saturation)],
      ['gamt', gamutTable(outside)],
    ]),
  };
  return encodeProfile(profile, spec.createdAt);
}

function shareByFunction<T>(): (key: unknown, make: () => T) => T {
  const made = new Map<unknown, T>();
  return (key, make) => {
    const value = made.get(key) ?? make();
    made.set(key, value);
    return value;
  };
}

function deviceToLabTable(f: (rgb: Triple) => Triple, points: number, encoding: Encoding): IccLut {
  const grid = sampleGrid(points, 3, (rgb) => labToUnit(f(rgb), encoding));
  return assemble(straight(3, encoding), grid, straight(3, encoding), encoding, 'mAB ');
}

/**
 * White (L* 100) and the neutral axis must stand on grid points, or paper white would not come out as no ink: in the
 * legacy encoding FF00 is not the end and 8000 not the middle, so the input curves stretch L* and shift a*, b* a hair.
 */
function labToDeviceTable(f: (lab: Triple) => Triple, points: number, encoding: Encoding): IccLut {
  const curves = labCurves(encoding);
  const grid = sampleGrid(points, 3, ([l, a, b]) => f([100 * l, 256 * a - 128, 256 * b - 128]));
  return assemble(curves, grid, straight(3, encoding), encoding, 'mBA ');
}

/** Lab as encoded → L* ÷ 100 and (a* + 128) ÷ 256 along the grid, so that a* = 0 is the middle of an odd grid. */
function labCurves(encoding: Encoding): readonly IccCurve[] {
  if (encoding === 'mAB') {
    const shifted: IccCurve = { kind: 'parametric', functionType: 1, parameters: [1, 255 / 256, 0] };
    return [identityCurve, shifted, shifted];
  }
  if (encoding === 'lut8') return [ramp(256, 1), ramp(256, 255 / 256), ramp(256, 255 / 256)];
  // 258 entries are 255 steps apart, so FF00 falls on entry 256: no rounding at white.
  return [ramp(258, 65535 / 65280), ramp(258, 65535 / 65536), ramp(258, 65535 / 65536)];
}

const ramp = (entries: number, slope: number): IccCurve => ({
  kind: 'sampled',
  values: Float64Array.from({ length: entries }, (_, i) => Math.min(1, (slope * i) / (entries - 1))),
});

function straight(channels: number, encoding: Encoding): readonly IccCurve[] {
  const curve = encoding === 'mAB' ? identityCurve : ramp(encoding === 'lut8' ? 256 : 2, 1);
  return Array.from({ length: channels }, () => curve);
}

function labToUnit([l, a, b]: Triple, encoding: Encoding): Triple {
  const scale = encoding === 'lut16' ? 65280 / 65535 : 1;
  return [(l / 100) * scale, ((a + 128) / 255) * scale, ((b + 128) / 255) * scale];
}

/** 0 inside, any other value outside (ICC.1:2022 9.2.31). Eight bits and 33 points: it is a warning, not a measure. */
function gamutTable(outside: (lab: Triple) => boolean): IccLut {
  const grid = sampleGrid(33, 1, ([l, a, b]) =>
    outside([100 * l, 256 * a - 128, 256 * b - 128]) ? [1] : [0],
  );
  return {
    kind: 'lut',
    type: 'mft1',
    inputChannels: 3,
    outputChannels: 1,
    stages: [
      { kind: 'curves', curves: labCurves('lut8') },
      grid,
      { kind: 'curves', curves: straight(1, 'lut8') },
    ],
  };
}

function sampleGrid(
  points: number,
  outputChannels: number,
  f: (unit: Triple) => readonly number[],
): { readonly kind: 'grid'; readonly grid: IccGrid } {
  const values = new Float32Array(points ** 3 * outputChannels);
  const last = points - 1;
  let at = 0;
  for (let i = 0; i < points; i += 1) {
    for (let j = 0; j < points; j += 1) {
      for (let k = 0; k < points; k += 1) {
        const out = f([i / last, j / last, k / last]);
        for (let o = 0; o < outputChannels; o += 1) values[at + o] = Math.min(1, Math.max(0, out[o] ?? 0));
        at += outputChannels;
      }
    }
  }
  return {
    kind: 'grid',
    grid: { inputChannels: 3, outputChannels, points: [points, points, points], values },
  };
}

/** lutAToB and lutBToA put the grid next to the device's curves (A) and always have the PCS's (B). */
function assemble(
  before: readonly IccCurve[],
  grid: { readonly kind: 'grid'; readonly grid: IccGrid },
  after: readonly IccCurve[],
  encoding: Encoding,
  staged: 'mAB ' | 'mBA ',
): IccLut {
  const type = encoding === 'lut16' ? 'mft2' : encoding === 'lut8' ? 'mft1' : staged;
  return {
    kind: 'lut',
    type,
    inputChannels: 3,
    outputChannels: 3,
    stages: [{ kind: 'curves', curves: before }, grid, { kind: 'curves', curves: after }],
  };
}
