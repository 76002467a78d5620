import type { GridLink } from '#craft/icc';
import type { KernelArena, SampleBits } from '#kernels';
import type { ClipForm } from '../geometry/clip.js';
import type { PixelFill } from '../geometry/mark-pixels.js';
import type { PixelBox } from '../geometry/pixel-sheet.js';
import type { Raster } from '../resample/raster.js';
import type { TextMask } from '../text/text-mask.js';

/** How finished rows leave a worker. png: filtered and deflated (PNG and PDF); tiff: a strip; raw: as they are. */
export type BandEncoding = 'png' | 'tiff' | 'raw';

/** Everything a worker must know to make any band of a sheet. Plain data over shared memory: posted as it is. */
export interface BandJob {
  readonly id: string;
  readonly width: number;
  readonly height: number;
  /** Reverse every finished row, marks and all. */
  readonly mirror: boolean;
  /** Sample size the kernel works in, and the size written. */
  readonly workBits: SampleBits;
  readonly outBits: SampleBits;
  readonly pieces: readonly BandPiece[];
  readonly rasters: readonly Raster[];
  readonly fills: readonly PixelFill[];
  readonly texts: readonly TextMask[];
  readonly arena: KernelArena;
  /** The grid whose bent cells are worked out exactly after the kernel; null: the kernel's word is final. */
  readonly bentGrid: GridLink | null;
  /** A second conversion of finished 8-bit rows, for soft proofs. */
  readonly proof: KernelArena | null;
  readonly encoding: BandEncoding;
}

export interface BandPiece {
  readonly box: PixelBox;
  readonly form: ClipForm;
  /** Index into `rasters`; null: no artwork shows on it. */
  readonly raster: number | null;
  /** Draw the picture left for right within its box. */
  readonly leftForRight: boolean;
}

export interface BandTask {
  readonly job: BandJob;
  /** Which slot of the arena this task may use. */
  readonly slot: number;
  readonly top: number;
  readonly rows: number;
  /** The deflate stream ends with this band. */
  readonly endsStream: boolean;
}

export interface EncodedBand {
  readonly top: number;
  readonly rows: number;
  readonly bytes: Uint8Array;
  /** png only: Adler-32 of the filtered rows and how many bytes they were, to join with the other bands. */
  readonly adler: number;
  readonly filteredBytes: number;
  /** png only: CRC-32 over 'IDAT' and the bytes. */
  readonly crc: number;
}
