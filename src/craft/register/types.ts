/** A place in a picture, in pixels; pixel centres lie at .5, x to the right, y down. */
export interface Place {
  readonly x: number;
  readonly y: number;
}

/** Top left, top right, bottom right, bottom left of the artwork as it reads. */
export type FourPlaces = readonly [Place, Place, Place, Place];

/** Nine numbers, row by row: homogeneous map of places. */
export type Projective = readonly number[];

/** How a place of the aligned picture comes to lie in the photo. */
export type SurfaceMap =
  | { readonly kind: 'flat'; readonly matrix: Projective }
  | {
      readonly kind: 'cylinder';
      /** Angle on the piece that the whole width of the artwork goes round; below zero when the piece is reversed. */
      readonly radiansAcross: number;
      /** Width of the aligned picture in pixels, which that angle belongs to. */
      readonly widthPixels: number;
      /** Twelve numbers, row by row: photo ~ camera · (sin a, 1 − cos a, y, 1), a the angle from the middle. */
      readonly camera: readonly number[];
    };

/**
 * Light and cast over the piece, relative to the artwork's own white: gain of channel c at a place is
 * exp(k0 + k1·s + k2·t + k3·s² + k4·s·t + k5·t²), s and t from −1 to 1 across and down the aligned picture.
 */
export interface Lighting {
  /** Three rows (red, green, blue) of six. */
  readonly logGain: readonly (readonly number[])[];
  /**
   * What the fit rests on. `white`: bare white of the artwork spread over the piece, so that light is told from fade.
   * `pattern`: no white to go by: the photo's overall level and colour were matched to the artwork, so an overall
   * fade or cast is taken for exposure or white balance and cannot be seen. `none`: nothing was corrected.
   */
  readonly basis: 'white' | 'pattern' | 'none';
  /** Whether a slope or bowl was fitted, and not the level alone. */
  readonly isShaped: boolean;
  /** What cannot be told from the light in this photo, as sentences; empty when all can. */
  readonly confounded: readonly string[];
}

/** Artwork and photo of a piece laid over each other, place for place, in the artwork's frame as it should read. */
export interface AlignedPair {
  readonly widthPixels: number;
  readonly heightPixels: number;
  /** Linear sRGB, 0..1, three a pixel, row by row. */
  readonly artwork: Float32Array;
  /** The same of the photo, with `lighting` divided out; may go above 1. Where `valid` is 0 it says nothing. */
  readonly photo: Float32Array;
  /** One a pixel: 1 where the photo shows this place, neither beyond its edge nor turned away nor burnt out. */
  readonly valid: Uint8Array;
  /** Pixels of this pair per millimetre on the piece; null when no size is known. */
  readonly pixelsPerMm: number | null;
  /** The piece shows the artwork left for right; the photo was turned over to match. */
  readonly isReversed: boolean;
  readonly map: SurfaceMap;
  /** Corners of the artwork in the photo as given (upright, full size); for a cylinder, of the part in view. */
  readonly outline: FourPlaces;
  /** Pixels of the photo (upright, full size) per pixel of this pair, in the middle: below 1 the photo is the coarser. */
  readonly photoPixelsPerPixel: number;
  /** Median length of what local shift is left between the two, in pixels of the pair; null when it could not be measured. */
  readonly residualPixels: number | null;
  readonly residualMm: number | null;
  /** Share 0..1 of textured places where the two agree in pattern. */
  readonly agreement: number;
  readonly lighting: Lighting;
  /** How it was found: by features alone, or starting from four corners a person gave. */
  readonly foundBy: 'features' | 'corners';
  readonly remarks: readonly string[];
}
