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
}
