import type { LinearRgb, PatchWarning } from '#craft/patchreading';
import type { Point } from '#craft/reading';
import type { CouponPatchName, EdgeSide } from '#craft/testsheet';
import type { NoEdge } from './slanted-edge.js';

export interface CouponPatchReading {
  readonly name: CouponPatchName;
  /** Linear light of the reader's own red, green and blue; its unevenness over this coupon taken out. */
  readonly rgb: LinearRgb;
  /** Standard deviation from pixel to pixel, and of the mean. */
  readonly sd: LinearRgb;
  readonly sdOfMean: LinearRgb;
  readonly warnings: readonly PatchWarning[];
  /** False when a warning makes the value doubtful. */
  readonly isSound: boolean;
}

/** One edge of the slanted square. */
export type CouponEdge =
  | {
      readonly side: EdgeSide;
      readonly isRead: true;
      readonly widthUm: number;
      readonly mtf50PerMm: number | null;
      readonly isTooSoft: boolean;
    }
  | { readonly side: EdgeSide; readonly isRead: false; readonly why: NoEdge };

/** How sharp the print is, the reader's own softness included. */
export interface EdgeReading {
  /** 10–90 %, mean of the edges that could be read; standard deviation of that mean from the halves of the edges. */
  readonly widthUm: number;
  readonly sdUm: number;
  /** Cycles a millimetre at half the contrast; null when finer than the picture shows. */
  readonly mtf50PerMm: number | null;
  readonly mtf50Sd: number | null;
  /** Left and right edges, and top and bottom ones; null where none could be read. They differ when the paper moved. */
  readonly acrossUm: number | null;
  readonly alongUm: number | null;
  /** Side of one pixel: widths below about two are the reader's own. */
  readonly pixelUm: number;
  readonly isReadersLimit: boolean;
  readonly edges: readonly CouponEdge[];
}

export interface CouponReading {
  readonly surface: 'paper' | 'piece';
  /** From the 4 × 4 cells; null when no number stands out. */
  readonly cellNumber: number | null;
  readonly patches: readonly CouponPatchReading[];
  /** The bare ground, which heat may yellow: mean, and its scatter over the coupon. */
  readonly ground: { readonly rgb: LinearRgb; readonly sd: LinearRgb; readonly isClipped: boolean };
  /** Lightest over darkest of the ground over the coupon. */
  readonly lightRatio: number;
  /** Null when fewer than two edges could be read. */
  readonly edge: EdgeReading | null;
  /** Small words, largest first: their dark strokes against the black patch, 1 = as dark, 0 = as the ground. */
  readonly words: readonly { readonly capMm: number; readonly strength: number }[];
  readonly pixelsPerMm: number;
  /** Corners in the picture, the coupon's own top left first, round as it reads. */
  readonly outline: readonly Point[];
  /** Plain sentences, the gravest first. */
  readonly remarks: readonly string[];
}
