import type { HealthInk } from '#craft/testsheet';

/** What a part could not tell, and the sentence that says why. */
export interface NotMeasurable {
  readonly isMeasured: false;
  readonly because: string;
}
export type Measured<T> = ({ readonly isMeasured: true } & T) | NotMeasurable;

export interface LadderStep {
  /** Counted from 0 at the top of the sheet as it reads; its row of the raster. */
  readonly step: number;
  /** Ink of its line, the usual line = 1. */
  readonly inkShare: number;
  /** Off its place, down the sheet, µm. */
  readonly offUm: number;
}

export interface LadderReading {
  readonly steps: number;
  readonly missing: readonly LadderStep[];
  /** There, but with much less ink: one of several nozzles that fill its row does not fire, or fires weakly. */
  readonly weak: readonly LadderStep[];
  readonly deflected: readonly LadderStep[];
  /** Scatter of sound lines (1.4826 of the median deviation): share of ink, and µm. */
  readonly inkScatter: number;
  readonly placeScatterUm: number;
  /** σ of a line as seen, the reader's softness included, µm. */
  readonly lineSigmaUm: number;
}

export interface TwoWayReading {
  /** Between rows of the two heaps; 0 when there is only one. */
  readonly offsetUm: number;
  /** Expanded, two standard deviations. With one heap: the least offset that would have been told. */
  readonly uncertaintyUm: number;
  readonly heaps: 1 | 2;
  /** How rows of the two heaps lie: in bands so high, or woven row by row. Null with one heap. */
  readonly pattern: { readonly kind: 'bands'; readonly heightMm: number } | { readonly kind: 'woven' } | null;
  /** Scatter of rows within a heap, µm. */
  readonly rowScatterUm: number;
}

export interface GridReading {
  readonly repeats: 'across' | 'along';
  readonly periodMm: number;
  /** As printed, by the registration squares' own millimetres. */
  readonly seenPeriodMm: number;
  /** Of the first harmonic, 1 = bars as black as the solid with gaps as white as the ground. */
  readonly modulation: number;
}

export interface BandingReading {
  /** Half from trough to crest, L* of the reader's own light with the bare paper as white. 0: none found. */
  readonly amplitudeL: number;
  /** Null when none was found. */
  readonly periodMm: number | null;
  /** Amplitude below which a band would not have been found, L*. */
  readonly limitL: number;
  /** Which of pass height or twice that it is; null when neither or no height was given. */
  readonly matchesPass: 'pass' | 'two-passes' | null;
  /** The bare paper beside shows the same: it is the scanner's. */
  readonly isReaders: boolean;
}

export interface GrainReading {
  /** Standard deviation of L* from place to place within tiles of 1.27 mm, and from tile to tile. */
  readonly grainL: number;
  readonly mottleL: number;
}

export interface SharpnessReading {
  /** 10–90 %, of upright edges and of level ones, the reader's own softness included, µm; null where not readable. */
  readonly acrossUm: number | null;
  readonly alongUm: number | null;
  readonly sdUm: number;
  /** Cycles a millimetre at half the contrast. */
  readonly mtf50PerMm: number | null;
  readonly isReadersLimit: boolean;
}

export interface InkHealth {
  readonly ink: HealthInk;
  readonly ladder: Measured<LadderReading>;
  readonly banding: Measured<BandingReading>;
  readonly grain: Measured<GrainReading>;
  readonly sharpness: Measured<SharpnessReading>;
  /** Log10 of the ground's light over the solid's, in the channel that shows this ink. */
  readonly solidDensity: Measured<{ readonly density: number; readonly pinholeShare: number }>;
}

/** Lengths of one scan, for `feedError`. */
export interface ScanLengths {
  readonly acrossPixelsPerMm: number;
  readonly alongPixelsPerMm: number;
  /** Standard deviation of their ratio. */
  readonly ratioSd: number;
  /** Where the sheet's y points in the picture: 0 down, 90 left, clockwise. */
  readonly turnDegrees: number;
}

export interface FeedReading {
  /** Lengths along the feed against those across, percent too long. */
  readonly errorPercent: number;
  /** Expanded, two standard deviations. */
  readonly uncertaintyPercent: number;
  readonly from: 'two-scans' | 'known-scanner' | 'one-scan';
  /** The scanner's own, along its picture's height against its width; null when not told. */
  readonly scannerPercent: number | null;
}

export interface HealthReading {
  readonly sheetId: string;
  readonly surface: 'paper' | 'piece';
  readonly pixelsPerMm: number;
  readonly inks: readonly InkHealth[];
  readonly twoWay: Measured<TwoWayReading>;
  readonly grids: readonly Measured<GridReading>[];
  readonly lengths: ScanLengths;
  readonly feed: FeedReading;
  readonly remarks: readonly string[];
}
