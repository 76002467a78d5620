import { notYet } from './not-yet.js';

/** Functions that are sampled into the tables: what the printer does, and what to send it. Lab is D50 2°, media-relative. */
export interface RgbLutTables {
  /** Printer RGB 0..1 → Lab. */
  readonly a2b: (rgb: readonly [number, number, number]) => readonly [number, number, number];
  /** Lab → printer RGB 0..1. */
  readonly b2a: (lab: readonly [number, number, number]) => readonly [number, number, number];
}

export interface RgbLutProfileSpec {
  readonly version: 2 | 4;
  /** lut16 in both; 'mAB' only in v4. Default lut16. */
  readonly encoding?: 'lut16' | 'lut8' | 'mAB';
  readonly description: string;
  readonly copyright: string;
  readonly perceptual: RgbLutTables;
  readonly relative: RgbLutTables;
  readonly saturation: RgbLutTables;
  /** Media white as measured, XYZ with Y of the perfect diffuser = 1, under D50. */
  readonly mediaWhiteXyz: readonly [number, number, number];
  /** True where a Lab colour is outside what the device reaches; absent: worked out from the relative tables. */
  readonly outside?: (lab: readonly [number, number, number]) => boolean;
  /** Default 17 (device → Lab) and 33 (Lab → device). */
  readonly a2bGridPoints?: number;
  readonly b2aGridPoints?: number;
  /** UTC, for the header; the clock is the caller's. */
  readonly createdAt?: {
    year: number;
    month: number;
    day: number;
    hour: number;
    minute: number;
    second: number;
  };
}

/** An output-class RGB profile with tables for three intents. */
export function writeRgbLutProfile(_spec: RgbLutProfileSpec): Uint8Array {
  return notYet();
}
