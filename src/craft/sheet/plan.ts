/**
 * What is on a sheet, in millimetres, as it should READ (y down, origin top left of the sheet seen reading
 * the right way). Whoever writes pixels mirrors the finished rows once, marks and all, when `mirrorOnWriting`.
 */
export interface SheetPlan {
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly mirrorOnWriting: boolean;
  readonly pieces: readonly PlannedPiece[];
  readonly marks: readonly Mark[];
  /** Where the pressed area is: every mark lies outside all trims. Null if the sheet has no room for marks. */
  readonly frame: MarkFrame | null;
}

export interface RectMm {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** One blank's picture on the sheet. */
export interface PlannedPiece {
  readonly index: number;
  /** The edge of the finished picture (the blank's face). */
  readonly trim: RectMm;
  readonly trimForm: 'rectangle' | 'ellipse';
  readonly trimCornerRadiusMm: number;
  /** What is printed: the trim grown by the bleed. Artwork is clipped to it. */
  readonly bleed: RectMm;
  readonly artwork: ArtworkPlacement;
  /**
   * How far the whole piece is turned on the sheet, clockwise, so that it fits. Trim, bleed and artwork above are
   * already as they lie on the sheet; whoever shows the piece alone turns it back. Absent: 0.
   */
  readonly turnedDegrees?: 0 | 90;
  /**
   * The piece is looked at through its back, so what is pressed must read backwards: the picture (not the marks) is
   * laid left for right on the sheet, and after the sheet's one mirroring reads the right way on the paper.
   */
  readonly seenThrough?: boolean;
}

/** Where the artwork lies on its piece. Millimetres from the centre of the trim to the centre of the artwork. */
export interface ArtworkPlacement {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly centreXMm: number;
  readonly centreYMm: number;
  /** Clockwise as seen reading the right way. */
  readonly rotationDegrees: number;
}

/** Marks are printed in raw device RGB (0..255): they check the route, so they never go through a colour path. */
export type Mark =
  | { readonly kind: 'fill'; readonly rect: RectMm; readonly rgb: Rgb8; readonly role: MarkRole }
  | {
      /** A flat shape with straight edges at any angle, such as a slanted square. */
      readonly kind: 'shape';
      /** What it covers at most. */
      readonly rect: RectMm;
      /** Going round; three or more, in no place crossing themselves. */
      readonly corners: readonly { readonly xMm: number; readonly yMm: number }[];
      readonly rgb: Rgb8;
      readonly role: MarkRole;
    }
  | {
      /** Square cells, row by row, true = ink (black). Used for ArUco markers and the QR code. */
      readonly kind: 'cells';
      readonly rect: RectMm;
      readonly columns: number;
      readonly rows: number;
      readonly cells: readonly boolean[];
      readonly role: MarkRole;
    }
  | {
      readonly kind: 'text';
      readonly xMm: number;
      /** Baseline. */
      readonly yMm: number;
      readonly capHeightMm: number;
      /** Set narrower than this, however long the words are. */
      readonly maxWidthMm: number;
      readonly text: string;
      readonly role: MarkRole;
    };

export type MarkRole =
  | 'corner'
  | 'identity'
  | 'reads-backwards'
  | 'route-strip'
  | 'trim'
  | 'label'
  /** On colour test sheets: a colour to be read, and small squares that tell where the paper has moved. */
  | 'patch'
  | 'registration'
  /** On coupons: the slanted square whose edges are measured, and small words to be looked at. */
  | 'edge'
  | 'small-words';
export type Rgb8 = readonly [number, number, number];

/** The geometry a reader needs, same coordinates as the plan. */
export interface MarkFrame {
  /** The corner markers: four of them, or two at the ends of a single band. The id says which corner it is. */
  readonly markers: readonly { readonly id: number; readonly rect: RectMm }[];
  readonly qr: RectMm;
  readonly routeStrip: readonly {
    readonly name: RoutePatchName;
    readonly rgb: Rgb8;
    readonly rect: RectMm;
  }[];
}

export type RoutePatchName =
  | 'K'
  | 'C'
  | 'M'
  | 'Y'
  | 'R'
  | 'G'
  | 'B'
  | 'grey-dark'
  | 'grey-mid'
  | 'grey-light'
  | 'skin-light'
  | 'skin-dark';
