import type { Triple } from '#craft/colour';

/** Measured patches, as read from an instrument's file or made by reading a chart. Plain data. */
export interface MeasurementTable {
  readonly device: {
    readonly space: 'RGB' | 'CMYK' | 'none';
    /** A row for each patch, 3 or 4 values 0..1 (none: empty rows). */
    readonly rows: readonly (readonly number[])[];
  };
  /** CIELAB under D50 for the 2° observer, a row for each patch; null where the file has no colour. */
  readonly lab: readonly Triple[] | null;
  /** XYZ under D50, 2°, 100 for the perfect diffuser; null where the file has no colour. */
  readonly xyz: readonly Triple[] | null;
  readonly spectra: SpectralRows | null;
  /** Standard deviation of each patch's Lab where the file states or the reader knows it, else null. */
  readonly sdLab: readonly Triple[] | null;
  readonly sampleIds: readonly string[];
  /** Header keywords, as written (values without quotes). */
  readonly keywords: ReadonlyMap<string, string>;
  /** What was assumed or found odd on the way in, one sentence each. */
  readonly remarks: readonly string[];
}

export interface SpectralRows {
  readonly firstNm: number;
  readonly stepNm: number;
  /** Reflectance factors, 1 for the perfect diffuser, a row for each patch. */
  readonly rows: readonly (readonly number[])[];
}
