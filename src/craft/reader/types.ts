import type { Triple, Triple3 } from '#craft/colour';
import type { LinearRgb } from '#craft/patchreading';

/** One colour that the reader saw and that is known from elsewhere. */
export interface ReaderSample {
  /** The reader's own linear light, 0..1 of its range. */
  readonly rgb: LinearRgb;
  /** Absolute CIELAB (perfect diffuser = 100), D50, 2°. */
  readonly lab: Triple;
  /** How much it counts beside an ordinary one; default 1. */
  readonly weight?: number;
  /** What to call it when it does not fit: 'B7', 'patch 31'. */
  readonly name?: string;
}

/** How far colours told by a map are expected to lie from the true ones, CIEDE2000. */
export interface MapError {
  readonly meanDeltaE00: number;
  readonly p95DeltaE00: number;
  readonly restsOn: 'calibration' | 'published';
}

export interface ReadColour {
  /** Absolute CIELAB, D50, 2°. */
  readonly lab: Triple3;
  /** Standard deviation of `lab`. */
  readonly sdLab: Triple3;
  /** Within what the map was learnt on. Outside it the colour is a guess. */
  readonly known: boolean;
}

/** From a reader's linear light to colour. */
export interface ReaderMap {
  readonly data: ReaderMapData;
  toLab(rgb: readonly LinearRgb[]): ReadColour[];
  readonly expectedError: MapError;
  /** Plain sentences, the gravest first. */
  readonly remarks: readonly string[];
}

export type MethodName =
  | 'matrix'
  | 'root-2'
  | 'root-3'
  | 'cube-root-1'
  | 'cube-root-2'
  | 'cube-root-3'
  | 'process';

/** All that is needed to make the same map again; plain JSON. */
export interface ReaderMapData {
  readonly format: 'dyewright-reader-map';
  readonly version: 1;
  /** B calibrated · C a card in the picture · D the reader's own word. */
  readonly grade: 'B' | 'C' | 'D';
  readonly how: LearntMapData | TagMapData;
  readonly expectedError: MapError;
  readonly remarks: readonly string[];
}

export interface LearntMapData {
  readonly kind: 'learnt';
  readonly method: MethodName;
  /** The pairs kept. */
  readonly rgb: readonly LinearRgb[];
  readonly lab: readonly Triple[];
  readonly weight: readonly number[];
  /** Strength of the ridge (polynomials); 0 elsewhere. */
  readonly ridge: number;
  /** Of the process, for L*, a*, b*. */
  readonly process: readonly ProcessParameters[] | null;
  /** Factor on each coordinate's standard deviation, from leaving pairs out. */
  readonly widening: Triple;
  /** Lab units added to the standard deviation, for what the pairs cannot show (other colourants, another place). */
  readonly beyondSd: number;
  /** What the reader's light is multiplied with first. */
  readonly gain: number;
  /** Farthest distance from the nearest pair, in encoded light, that still counts as known. */
  readonly reach: number;
}

/** One coordinate of the Gaussian process on what the trend leaves. */
export interface ProcessParameters {
  /** How far along each encoded channel (0..1) colours stay alike. */
  readonly reach: Triple;
  /** Standard deviation of the process, Lab units. */
  readonly sd: number;
  /** Standard deviation of an ordinary pair, Lab units. */
  readonly noiseSd: number;
}

export interface TagMapData {
  readonly kind: 'tag';
  /** What was trusted. */
  readonly trusted: 'tag' | 'srgb';
  /** Linear light → XYZ (D50, Y = 1), row-major; for tags of tables null. */
  readonly matrix: readonly number[] | null;
  /** For tags of tables: `size`³ Lab colours over encoded light, the first channel slowest. */
  readonly grid: { readonly size: number; readonly lab: readonly number[] } | null;
  /** XYZ are multiplied with these so that the bare ground is neutral. */
  readonly scale: Triple;
  readonly sdLab: Triple;
}
