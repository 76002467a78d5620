import type { Triple } from '#craft/colour';
import type { RectMm, Rgb8 } from '#craft/sheet';
import type { ColourSheetOrder, EvennessSheetOrder, SheetMaterial } from '#craft/testsheet';

/** What one patch of a check sheet should come out as. */
export interface WantedColour {
  /** Which of the order's patches. */
  readonly chosen: number;
  /** Beside the pressed white (100, 0, 0). */
  readonly relativeLab: Triple;
  readonly kind: 'colour' | 'neutral' | 'limited';
}

/** Kept beside a test sheet's record: what a picture of it is read by. */
export interface KeptPlan {
  /** Null: a sheet for eyes only. */
  readonly chart: ColourSheetOrder | null;
  /** Check sheets only. */
  readonly wanted: readonly WantedColour[] | null;
  /** Every colour on a sheet for eyes only, and where; null where `chart` says so. */
  readonly fields: readonly ColourField[] | null;
  /** Ladders only; plans kept before there were any lack it, as they do the next. */
  readonly ladder?: KeptLadder | null;
  /** Evenness sheets only. */
  readonly evenness?: EvennessSheetOrder | null;
}

/** Coupons may lie anyhow in a picture: their size and what they were made for is all that reading wants. */
export interface KeptLadder {
  readonly sheetId: string;
  readonly couponWidthMm: number;
  readonly couponHeightMm: number;
  readonly material: SheetMaterial;
}

/** A field of one colour, as the sheet reads. */
export interface ColourField {
  readonly rect: RectMm;
  readonly deviceRgb: Rgb8;
}
