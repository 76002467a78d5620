import type { BandEncoding, EncodedBand } from '../bands/band-job.js';
import type { BandRange } from '../bands/run-bands.js';

/** What every file format needs to know of a sheet. */
export interface SheetImage {
  readonly width: number;
  readonly height: number;
  readonly ppi: number;
  readonly bits: 8 | 16;
  /** Embedded when given. */
  readonly iccBytes: Uint8Array | null;
  readonly title: string;
}

/** A file format taking bands in order. */
export interface SheetWriter {
  readonly encoding: BandEncoding;
  readonly bands: readonly BandRange[];
  begin(): Promise<void>;
  write(band: EncodedBand): Promise<void>;
  end(): Promise<void>;
}
