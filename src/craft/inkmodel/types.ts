import type { Triple } from '#craft/colour';

/** What is said of one device colour. Lab is absolute (perfect diffuser = 100), D50, 2°. */
export interface InkPrediction {
  readonly lab: Triple;
  /** Standard deviation of the colour itself; a reading of it adds the model's `noiseSd`. */
  readonly sdLab: Triple;
  /** How far the true colour is expected to lie from `lab`. */
  readonly expectedDeltaE00: number;
}

/** A patch that does not fit what all the others say. It was left out. */
export interface OutlierPatch {
  /** Row of the measurement table. */
  readonly index: number;
  readonly sampleId: string;
  readonly measuredLab: Triple;
  /** What the other patches say it should be. */
  readonly expectedLab: Triple;
  readonly deltaE00: number;
}

/** Hyperparameters of one coordinate's covariance; see kernel.ts. */
export interface KernelParameters {
  /** How far along each device channel colours stay alike (channel range 1), then along each guide coordinate. */
  readonly reach: readonly [number, number, number, number, number, number];
  /** Variances: single channels, pairs of channels, all channels together, guide coordinates together. */
  readonly variance: readonly [number, number, number, number];
  /** Prior standard deviation of the trend's constant (its slopes follow, see kernel.ts), Lab units. */
  readonly trendSd: number;
  /** Prior standard deviation of the trend's slope along the guide coordinates; 0 where there is no known model. */
  readonly guideTrendSd: number;
}

export interface ChannelParameters {
  readonly kernel: KernelParameters;
  /** Standard deviation of the reading of an ordinary patch, Lab units. */
  readonly noiseSd: number;
}

/** All that is needed to make the same model again; plain JSON. */
export interface InkModelData {
  readonly format: 'dyewright-ink-model';
  readonly version: 1;
  /** Device RGB 0..1 and Lab of the patches kept. */
  readonly rgb: readonly Triple[];
  readonly lab: readonly Triple[];
  /** Variance of each patch's reading beside an ordinary one's. */
  readonly noiseMultiple: readonly number[];
  readonly channels: readonly [ChannelParameters, ChannelParameters, ChannelParameters];
  /** Factor on each coordinate's standard deviation, from leaving patches out. */
  readonly widening: Triple;
  /** Part of `noiseSd` that is the printer's own unevenness between near colours, not reading; Lab units. */
  readonly roughnessSd: Triple;
  readonly outliers: readonly OutlierPatch[];
  /** Lightness added along the neutral axis so that it only rises, evenly from black to white; empty: none needed. */
  readonly neutralLift: readonly number[];
  /** The model this one was adapted from. */
  readonly base: InkModelData | null;
}

/** From device to colour, however it was come by: all that the way back, the gamut and the profile need. */
export interface ColourModel {
  /** Device RGB 0..1. Values outside are clipped. */
  predict(rgb: readonly Triple[]): InkPrediction[];
  /** Means only, and fast: count × 3 device values → count × 3 Lab. */
  predictLab(rgb: Float64Array): Float64Array;
}

export interface InkModel extends ColourModel {
  readonly data: InkModelData;
  /** Standard deviation of a reading, Lab units. */
  readonly noiseSd: Triple;
  readonly outliers: readonly OutlierPatch[];
}
