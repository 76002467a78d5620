import type { TransformOptions } from './types.js';

/**
 * A device link: the whole way from artwork pixels to the printer's RGB, worked out once and then applied to
 * pixels by the kernels. All values are encoded 0..1 (8 bit: v/255, 16 bit: v/65535).
 */
export type DeviceLink = IdentityLink | ShaperLink | GridLink;

/** Pixels pass as they are (sRGB artwork and no colour path). */
export interface IdentityLink {
  readonly kind: 'identity';
  readonly inputChannels: 3;
}

/** Matrix RGB to matrix RGB: curve, 3 × 3, curve. Exact up to the sampling of the curves. */
export interface ShaperLink {
  readonly kind: 'shaper';
  readonly inputChannels: 3;
  /** Per channel, encoded → linear, sampled evenly over 0..1. */
  readonly inputCurves: readonly [Float32Array, Float32Array, Float32Array];
  /** Row-major 3 × 3, linear source → linear destination. */
  readonly matrix: Float32Array;
  /** Per channel, linear → encoded, sampled evenly over 0..1 of the SQUARE ROOT of the linear value (finer in shadows). */
  readonly outputCurves: readonly [Float32Array, Float32Array, Float32Array];
}

/**
 * A grid of colours: per-channel input curves (encoded → grid position 0..1), then interpolation
 * (1 channel linear, 3 tetrahedral, 4 tetrahedral in the last three and linear in the first).
 */
export interface GridLink {
  readonly kind: 'grid';
  readonly inputChannels: 1 | 3 | 4;
  readonly gridPoints: number;
  /** Per input channel, sampled evenly over 0..1, values 0..1; null: straight through. */
  readonly inputCurves: readonly Float32Array[] | null;
  /** gridPoints^inputChannels × 3 values, 0..65535 for 0..1, first channel varies slowest. */
  readonly table: Uint16Array;
  /** Measured against the exact chain at points off the grid, in 8-bit code values. */
  readonly error8: { readonly mean: number; readonly max: number };
  /**
   * Four channels only, where no grid of bearable size follows the edge of what the printer reaches: the cells in
   * which the table bends too sharply, one bit each (bit n & 7 of byte n >> 3 for the cell whose low corner is node
   * n), and the chain itself. `exactInBends` works the colours in them out without the grid.
   */
  readonly bends?: { readonly cells: Uint8Array; readonly chain: TransformOptions };
}
