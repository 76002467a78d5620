import type { Triple } from '#craft/colour';
import type { FrameVariant, MarkFrame, RectMm, Rgb8, SheetPlan } from '#craft/sheet';

/** What the sheet is pressed on: cloth moves and has a weave, so it wants larger patches. */
export type SheetMaterial = 'hard' | 'fabric';

/** Everything a colour test sheet is made from; the same order gives the same sheet to the last digit. */
export interface ColourSheetOrder {
  /** From `colourSheetId` when the patches are those of `choosePatches`, else from `newSheetId`. */
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Not printable at each edge. */
  readonly marginMm: number;
  readonly material: SheetMaterial;
  /** Device RGB 0..1 (rounded to 8-bit codes), 30 to 900 of them. */
  readonly patches: readonly { readonly rgb: readonly [number, number, number] }[];
  /** Decides where each patch lies; whole, 0 or more. */
  readonly seed: number;
  readonly mirrorOnWriting: boolean;
  /** A few words beside the marks. */
  readonly caption?: string | undefined;
  /** Without it the first arrangement of marks in which the patches fit. */
  readonly variant?: FrameVariant | undefined;
}

/** One printed colour. Its number in `ChartLayout.patches` is its place on the sheet, row by row. */
export interface ChartPatch {
  readonly column: number;
  readonly row: number;
  readonly rect: RectMm;
  readonly deviceRgb: Rgb8;
  /** Which of the order's patches it is; null for a control, printed only to be compared with its likes. */
  readonly chosen: number | null;
}

/** A small black square on white whose place is known. */
export interface RegistrationMark {
  readonly xMm: number;
  readonly yMm: number;
  readonly sideMm: number;
}

/** Where everything is on the sheet as it should read, millimetres: what the reader goes by. */
export interface ChartLayout {
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly mirrorOnWriting: boolean;
  readonly material: SheetMaterial;
  readonly frame: MarkFrame;
  /** The field of cells. */
  readonly area: RectMm;
  readonly columns: number;
  readonly rows: number;
  /** From one cell to the next, both ways; a patch is `gapMm` smaller. */
  readonly pitchMm: number;
  readonly gapMm: number;
  readonly patches: readonly ChartPatch[];
  readonly registration: readonly RegistrationMark[];
}

export interface PlannedColourSheet {
  readonly plan: SheetPlan;
  readonly layout: ChartLayout;
  /** How its marks are arranged, as its code says. */
  readonly variant: FrameVariant;
}

/** Near-neutrals of one lightness (the contract's `greyRowSchema`). */
export interface GreyRow {
  /** 0..1: the device grey round which the row's candidates lie. */
  readonly level: number;
  readonly candidates: readonly {
    /** As a person says it: 'B4'. */
    readonly label: string;
    /** 0..255. */
    readonly deviceRgb: Rgb8;
    /** How far it was meant to lie from the middle, CIELAB units. */
    readonly aStep: number;
    readonly bStep: number;
  }[];
}

/** Steps of tone (the contract's `toneRowSchema`). */
export interface ToneRow {
  readonly question: 'from-black' | 'from-white' | 'like-card';
  readonly steps: readonly { readonly label: string; readonly deviceRgb: Rgb8 }[];
}

export interface GreySheetOrder {
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Not printable at each edge. */
  readonly marginMm: number;
  readonly mirrorOnWriting: boolean;
  readonly caption?: string | undefined;
  /** Media-relative Lab (white = 100, 0, 0) → device RGB 0..1; without it sRGB, clipped. */
  readonly deviceOf?: ((lab: Triple) => Triple) | undefined;
}

export interface PlannedGreySheet {
  readonly plan: SheetPlan;
  readonly rows: readonly GreyRow[];
  readonly tone: readonly ToneRow[];
}

export interface PaletteSheetOrder {
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Not printable at each edge. */
  readonly marginMm: number;
  readonly mirrorOnWriting: boolean;
  readonly caption?: string | undefined;
  /** Drawn row by row in this order. */
  readonly swatches: readonly {
    readonly deviceRgb: Rgb8;
    readonly title: string;
    /** A short second line, such as the colour's hexadecimal value. */
    readonly note: string;
  }[];
}

export interface PlannedPaletteSheet {
  readonly plan: SheetPlan;
  /** In the order asked for. */
  readonly swatches: readonly {
    readonly rect: RectMm;
    readonly deviceRgb: Rgb8;
    readonly title: string;
    readonly note: string;
  }[];
}

/** A colour of a palette: media-relative Lab and a short plain name. */
export interface PaletteColour {
  readonly lab: Triple;
  readonly name: string;
}
