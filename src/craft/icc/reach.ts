import { notYet } from './not-yet.js';
import type { TransformOptions } from './types.js';

/** Colours further than this (ΔE00) from what the device reaches are called unreachable. */
export const reachThresholdDeltaE00 = 3;

/** How far each source colour is from the nearest the destination reaches, on a grid in source encoding. */
export interface ReachTable {
  readonly inputChannels: 1 | 3 | 4;
  readonly gridPoints: number;
  /** gridPoints^inputChannels × 7: ΔE00, wanted L* a* b*, nearest L* a* b*; first channel slowest. */
  readonly values: Float32Array;
}

export interface Reach {
  readonly deltaE00: number;
  readonly wantedLab: readonly [number, number, number];
  readonly nearestLab: readonly [number, number, number];
  /** For the screen, 0..255, clipped to sRGB. */
  readonly wantedSrgb8: readonly [number, number, number];
  readonly nearestSrgb8: readonly [number, number, number];
}

/** Wanted = the source colour, colorimetric; nearest = the destination's own colorimetric round trip. */
export function reachTable(_options: TransformOptions): ReachTable {
  return notYet();
}

/** ΔE00 alone, without allocating: for every pixel. Channels encoded 0..1. */
export function reachDeltaE00(_table: ReachTable, _c0: number, _c1 = 0, _c2 = 0, _c3 = 0): number {
  return notYet();
}

/** All that is known at one colour. Channels encoded 0..1. */
export function lookUpReach(_table: ReachTable, _c0: number, _c1 = 0, _c2 = 0, _c3 = 0): Reach {
  return notYet();
}
