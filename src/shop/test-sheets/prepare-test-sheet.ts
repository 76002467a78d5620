import { createHash } from 'node:crypto';
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
import { newSheetId } from '#craft/sheet';
import { colourSheetId, colourSheetRecipe, type SheetMaterial } from '#craft/testsheet';
import type { Blanks, Setups } from '#shop/catalogue';
import type { ColourPaths } from '#shop/paths';
import type { Presses } from '#shop/presses';
import { canonicalJson } from '#shop/store';
import { checked } from '#shop/validate';
import { type FoundPress, findPress } from './found-press.js';
import type { PlannedTestSheet } from './plan-task.js';
import { planTestSheet } from './plan-test-sheet.js';
import { remarksFor } from './remarks.js';
import { materialFor, sheetSize, type TestSheetSize } from './sheet-size.js';

/** Raise when the same order would give another sheet than before. */
const makingVersion = 1;

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

/** And planned to the last mark; nothing has been drawn. */
export interface PreparedTestSheet extends FoundOrder, PlannedTestSheet {
  readonly sheetId: string;
  readonly ppi: number;
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

/** Chooses what is left to chance: the same order, the same choice. */
export const seedOf = (found: FoundOrder, size: TestSheetSize): number => seedFrom(digestFor(found, size));

/**
 * The sheet planned.
 * @param drawnSeed for a colour sheet whose order names none
 * @param round of a ladder: the same order again, for coupons of another id
 * Errors: sheet.impossible, and what the path's colours cost (profile.unsupported, chart.unusable, file.missing).
 */
export async function prepareTestSheet(
  parts: PrepareParts,
  found: FoundOrder,
  drawnSeed: number,
  round = 0,
): Promise<PreparedTestSheet> {
  const size = sizeOf(found);
  const { setup, material } = found;
  const order: TestSheetOrder =
    found.order.kind === 'colour' ? { ...found.order, seed: found.order.seed ?? drawnSeed } : found.order;
  const seed = order.kind === 'colour' ? (order.seed ?? drawnSeed) : seedOf(found, size);
  const sheetId =
    order.kind === 'colour'
      ? colourSheetId({ count: order.patches, seed, material })
      : ordinaryId(digestFor(found, size), round);
  const planned = await planTestSheet(parts.paths, { ...found, order, size, seed, sheetId });
  const remarks = [...planned.remarks, ...remarksFor({ ...found, order }, size)];
  return { ...found, order, sheetId, ...planned, ppi: setup.ppi, remarks };
}

/** All that such a sheet is made from: asked for again it is the same sheet, and may be printed and read again. */
function digestFor({ order, blank, setup, path, press }: FoundOrder, size: TestSheetSize): Buffer {
  // On a press measured since, other temperatures are to be set.
  const pressed = press === null ? {} : { press: { name: press.press.name, offsetK: press.offsetK } };
  const from = { makingVersion, order, blank, setup, size, iccHash: path?.iccHash ?? null, ...pressed };
  return createHash('sha256').update(canonicalJson(from)).digest();
}

const seedFrom = (digest: Buffer): number => digest.readUInt32BE(8) & 0x1fffff;

/** An id that does not happen to read as that of a colour sheet. */
function ordinaryId(digest: Buffer, round: number): string {
  let left = round;
  for (let bytes = digest; ; bytes = createHash('sha256').update(bytes).digest()) {
    const id = newSheetId(bytes);
    if (colourSheetRecipe(id) !== null) continue;
    if (left === 0) return id;
    left -= 1;
  }
}
