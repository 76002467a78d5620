import type { RectMm, Rgb8 } from '#craft/sheet';
import { type ColourSheetOrder, planColourSheet } from '#craft/testsheet';
import { patchName } from '#shop/readings';

/** A printed colour: where it is as the sheet reads, millimetres from its top left corner. */
export interface PlacedColour extends RectMm {
  readonly name: string | null;
  /** 0..255, as printed. */
  readonly deviceRgb: Rgb8;
  /** Printed only to be compared with its likes. */
  readonly control: boolean;
}

/** Every patch of a chart, for whoever prints or measures it by other means. */
export function placesOf(order: ColourSheetOrder): PlacedColour[] {
  return planColourSheet(order).layout.patches.map(({ column, row, rect, deviceRgb, chosen }) => ({
    name: patchName(column, row),
    ...rect,
    deviceRgb,
    control: chosen === null,
  }));
}
