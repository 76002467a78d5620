import {
  type Blank,
  type ColourPath,
  type PrintSetup,
  type SheetOutputOptions,
  sheetOutputOptionsSchema,
  type TestSheetOrder,
  testSheetOrderSchema,
} from '#contract';
import { Problem } from '#craft/problem';
import type { SheetMaterial } from '#craft/testsheet';
import type { Blanks, Setups } from '#shop/catalogue';
import type { ColourPaths } from '#shop/paths';
import type { Presses } from '#shop/presses';
import { checked } from '#shop/validate';
import { type FoundPress, findPress } from './found-press.js';
import { materialFor, sheetSize, type TestSheetSize } from './sheet-size.js';

/** An order with everything it names found. */
export interface FoundOrder {
  readonly order: TestSheetOrder;
  readonly output: SheetOutputOptions;
  readonly blank: Blank;
  readonly setup: PrintSetup;
  readonly path: ColourPath | null;
  readonly material: SheetMaterial;
  /** Ladders and evenness sheets: the press that is named. */
  readonly press: FoundPress | null;
}

export interface PrepareParts {
  readonly blanks: Blanks;
  readonly setups: Setups;
  readonly presses: Presses;
  readonly paths: ColourPaths;
}

/** Errors: request.invalid, record.missing, sheet.impossible (a blank that takes no dye). */
export async function findOrder(
  parts: PrepareParts,
  orderValue: unknown,
  outputValue: unknown = {},
): Promise<FoundOrder> {
  const order = checked(testSheetOrderSchema, orderValue, 'The test sheet asked for cannot be understood');
  const output = checked(sheetOutputOptionsSchema, outputValue, 'The output asked for cannot be understood');
  if (order.kind === 'follow-up' && order.towards === 'artwork' && order.artworkId === undefined) {
    throw new Problem('request.invalid', 'It is not said which artwork the patches should lie near.', {
      remedy: 'Choose an artwork, or let the patches go where the path is least sure.',
      where: 'artworkId',
    });
  }
  const pathId = 'pathId' in order ? order.pathId : undefined;
  const pressId = 'pressId' in order ? order.pressId : undefined;
  const [blank, setup, path, press] = await Promise.all([
    parts.blanks.get(order.blankId),
    parts.setups.get(order.setupId),
    pathId === undefined ? null : parts.paths.get(pathId),
    pressId === undefined ? null : findPress(parts.presses, pressId),
  ]);
  if (blank.coating.kind === 'none' || (blank.coating.kind === 'fibre' && blank.polyesterPercent === 0)) {
    throw new Problem(
      'sheet.impossible',
      `${blank.name} takes no dye: sublimation needs polyester, as a coat or as cloth.`,
      { remedy: 'Choose a blank made for sublimation.', where: 'blankId' },
    );
  }
  return { order, output, blank, setup, path, press, material: materialFor(order, blank) };
}

export function sizeOf({ order, setup, material, press }: FoundOrder): TestSheetSize {
  return sheetSize(order, setup, material, press?.press ?? null);
}
