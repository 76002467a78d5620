import type { FrameVariant, MarkFrame, RectMm, Rgb8, SheetPlan } from '#craft/sheet';
import type { ChartLayout, SheetMaterial } from './types.js';

export type CouponPatchName = 'black' | 'cyan' | 'magenta' | 'yellow' | 'grey';
export type EdgeSide = 'left' | 'right' | 'top' | 'bottom';

/** What everything on a coupon is and where, millimetres from its own top left corner as it should read. */
export interface CouponLayout {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly material: SheetMaterial;
  /** Four corner markers and the square code; no route strip. */
  readonly frame: MarkFrame;
  /** The 4 × 4 cells that say the number. */
  readonly number: RectMm;
  readonly patches: readonly {
    readonly name: CouponPatchName;
    readonly deviceRgb: Rgb8;
    readonly rect: RectMm;
  }[];
  /** A black shape with four edges about 5° off upright and level, white round it. */
  readonly edgeTarget: {
    /** Top left, top right, bottom right, bottom left. */
    readonly corners: readonly { readonly xMm: number; readonly yMm: number }[];
    /** So far to either side of each edge nothing else is printed. */
    readonly clearMm: number;
  };
  /** Lines of the same small words, largest first. */
  readonly words: readonly { readonly capMm: number; readonly box: RectMm; readonly text: string }[];
  /** Where the step is written. */
  readonly label: RectMm;
  /** Places of bare ground with so much room round them. */
  readonly ground: {
    readonly places: readonly { readonly xMm: number; readonly yMm: number }[];
    readonly reachMm: number;
  };
}

export interface PlannedCoupon {
  /** 1 to 16; what its cells and its code say. */
  readonly number: number;
  /** '20 s', '200 °C · 60 s'; empty: a line to be written on. */
  readonly step: string;
  /** On the sheet as it should read. */
  readonly rect: RectMm;
}

export interface LadderSheetOrder {
  /** From `newSheetId`. */
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  /** Not printable at each edge. */
  readonly marginMm: number;
  readonly material: SheetMaterial;
  readonly mirrorOnWriting: boolean;
  readonly caption?: string | undefined;
  /** One to sixteen; numbers 1 to 16, none twice. A ladder may go over several sheets of the same id. */
  readonly coupons: readonly { readonly number: number; readonly step?: string | undefined }[];
  /** Sides of a coupon; left out: as small as can be read, to fit scrap. */
  readonly couponWidthMm?: number | undefined;
  readonly couponHeightMm?: number | undefined;
}

export interface PlannedLadderSheet {
  readonly plan: SheetPlan;
  /** The same for every coupon. */
  readonly coupon: CouponLayout;
  readonly coupons: readonly PlannedCoupon[];
}

export interface EvennessSheetOrder {
  readonly sheetId: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
  readonly material: SheetMaterial;
  readonly mirrorOnWriting: boolean;
  readonly caption?: string | undefined;
  /** Device RGB of the flat tone; left out: the middle grey. */
  readonly tone?: Rgb8 | undefined;
  readonly variant?: FrameVariant | undefined;
}

export interface PlannedEvennessSheet {
  readonly plan: SheetPlan;
  /** Every patch has the same tone; between them bare ground. */
  readonly layout: ChartLayout;
  readonly variant: FrameVariant;
}
