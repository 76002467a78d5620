import type { FlatOutline } from '#craft/blank';
import type { SheetLayout } from '../layout.js';
import type { PixelSize, PlacementChoice } from '../placing.js';

/** A small picture of the whole artwork (about 1000 pixels on its long side), straight alpha, sRGB, row by row. */
export interface SmallPicture {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** R, G, B, A of each pixel, 0..255; length 4·width·height. */
  readonly rgba: Uint8Array | Uint8ClampedArray;
}

/** What the checks look at. The blank's fields are those of the contract's `Blank`. */
export interface SheetUnderCheck {
  readonly blank: {
    readonly name: string;
    readonly shape: {
      readonly kind: 'rectangle' | 'ellipse' | 'cylinder';
      readonly gapMm?: number;
      readonly handle?: boolean;
    };
    readonly toleranceMm: number;
    readonly safeMm: number;
    readonly coating: {
      readonly kind: 'polymer' | 'fibre' | 'none';
      readonly seenThrough?: boolean | undefined;
    };
    readonly polyesterPercent: number | null;
  };
  readonly outline: FlatOutline;
  readonly bleedMm: number;
  readonly artworkPixels: PixelSize;
  readonly placement: PlacementChoice;
  readonly layout: SheetLayout;
  readonly mirroredBy: 'sheet' | 'driver';
  /** Null: no small picture at hand; what needs one is left out, nothing is guessed. */
  readonly picture: SmallPicture | null;
  readonly colour: {
    readonly calibrated: boolean;
    /** Share (0..1) of the picture further than `thresholdDeltaE00` from what the path reaches; null when unknown. */
    readonly unreachableShare: number | null;
    readonly thresholdDeltaE00: number | null;
    /** Why the colour path may no longer fit this printer, blank or recipe; absent: nothing is known against it. */
    readonly pathDoubts?: { readonly isStale: boolean; readonly sentences: readonly string[] } | undefined;
  };
}
