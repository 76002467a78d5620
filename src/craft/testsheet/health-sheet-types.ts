import type { FrameVariant, MarkFrame, RectMm, Rgb8, SheetPlan } from '#craft/sheet';
import type { RegistrationMark } from './types.js';

export type HealthInk = 'cyan' | 'magenta' | 'yellow' | 'black';

/** Short level lines, one on every row of the raster in turn: step k stands in column k mod `columnXMm.length`. */
export interface HealthLadder {
  readonly ink: HealthInk;
  readonly deviceRgb: Rgb8;
  readonly steps: number;
  /** Middle of step 0, and from one step to the next: one row. */
  readonly firstYMm: number;
  readonly stepMm: number;
  /** Left ends of the columns, and how long their lines are. */
  readonly columnXMm: readonly number[];
  readonly lineMm: number;
}

/** Upright columns of dots one row thick; column j has the rows r with r mod `residues` = j mod `residues`. */
export interface HealthCombs {
  readonly ink: HealthInk;
  readonly rows: number;
  /** Middle of row 0, and from one row to the next. */
  readonly firstYMm: number;
  readonly rowMm: number;
  readonly residues: number;
  /** Middles of the columns, evenly spaced but for the raster. */
  readonly xMm: readonly number[];
  readonly dotMm: number;
  /** So far to either side of a column's middle nothing else is printed. */
  readonly reachMm: number;
}

/** Bars as wide as their gaps. */
export interface HealthGrid {
  /** Which way it repeats: across the feed (upright bars) or along it (level bars). */
  readonly repeats: 'across' | 'along';
  readonly periodMm: number;
  readonly rect: RectMm;
}

/** A flat light tone, long along the feed, and the bare strip beside it. */
export interface HealthTint {
  readonly ink: HealthInk;
  readonly deviceRgb: Rgb8;
  readonly rect: RectMm;
  readonly ground: RectMm;
}

export interface HealthSlant {
  readonly ink: HealthInk;
  readonly deviceRgb: Rgb8;
  /** Top left, top right, bottom right, bottom left. */
  readonly corners: readonly { readonly xMm: number; readonly yMm: number }[];
  readonly clearMm: number;
}

export interface HealthSolid {
  readonly ink: HealthInk;
  readonly deviceRgb: Rgb8;
  readonly rect: RectMm;
}

/** What is on a health sheet and where, millimetres as it should read; y runs along the feed. */
export interface HealthLayout {
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly mirrorOnWriting: boolean;
  readonly frame: MarkFrame;
  readonly rowsPerInch: number;
  /** Black squares round the whole, for registration and for the lengths across and along the feed. */
  readonly registration: readonly RegistrationMark[];
  readonly ladders: readonly HealthLadder[];
  readonly combs: HealthCombs;
  readonly grids: readonly HealthGrid[];
  readonly slants: readonly HealthSlant[];
  readonly solids: readonly HealthSolid[];
  readonly tints: readonly HealthTint[];
}

export interface HealthSheetOrder {
  /** From `newSheetId`. */
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Not printable at each edge. */
  readonly marginMm: number;
  readonly mirrorOnWriting: boolean;
  readonly caption?: string | undefined;
  /** Rows of the raster the sheet is written in: 360 or 720. Written otherwise, its thinnest lines come out uneven. */
  readonly rowsPerInch?: 360 | 720 | undefined;
  readonly variant?: FrameVariant | undefined;
}

export interface PlannedHealthSheet {
  readonly plan: SheetPlan;
  readonly layout: HealthLayout;
  readonly variant: FrameVariant;
}
