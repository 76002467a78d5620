/**
 * The artwork resampled to the sheet's pixels, in its own numbers, as an uncompressed file: what the band
 * workers read. Cut to what its piece can show; `left` and `top` are in the piece's box and may be negative.
 */
export interface Raster {
  readonly path: string;
  readonly dataOffset: number;
  readonly width: number;
  readonly height: number;
  readonly left: number;
  readonly top: number;
  readonly colourChannels: 1 | 3 | 4;
  readonly hasAlpha: boolean;
  readonly bits: 8 | 16;
  /** For artwork turned by an odd angle: the turned rectangle it covers; pixels outside are paper. */
  readonly cover: TurnedBox | null;
}

/** A rectangle turned clockwise about its centre, in the coordinates of the piece's box. */
export interface TurnedBox {
  readonly centreX: number;
  readonly centreY: number;
  readonly halfWidth: number;
  readonly halfHeight: number;
  readonly cos: number;
  readonly sin: number;
}
