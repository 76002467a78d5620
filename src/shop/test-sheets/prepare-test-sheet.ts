import { createHash } from 'node:crypto';
import {
  type Blank,
  type ColourPath,
  type PrintSetup,
  type SheetOutputOptions,
  sheetOutputOptionsSchema,
  type TestSheet,
  type TestSheetOrder,
  testSheetOrderSchema,
} from '#contract';
import { Problem } from '#craft/problem';
import { newSheetId, type SheetPlan } from '#craft/sheet';
import { colourSheetId, colourSheetRecipe, type SheetMaterial } from '#craft/testsheet';
import type { Blanks, Setups } from '#shop/catalogue';
import type { ColourPaths } from '#shop/paths';
import { canonicalJson } from '#shop/store';
import { checked } from '#shop/validate';
import type { KeptPlan } from './kept-plan.js';
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
}

/** And planned to the last mark; nothing has been drawn. */
export interface PreparedTestSheet extends FoundOrder {
  readonly sheetId: string;
  readonly plan: SheetPlan;
  readonly kept: KeptPlan;
  readonly grey: TestSheet['grey'];
  /** Colours asked for, without controls. */
  readonly patches: number;
  readonly patchMm: number;
  readonly ppi: number;
  readonly remarks: readonly string[];
}

export interface PrepareParts {
  readonly blanks: Blanks;
  readonly setups: Setups;
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
  const pathId = order.kind === 'colour' ? undefined : order.pathId;
  const [blank, setup, path] = await Promise.all([
    parts.blanks.get(order.blankId),
    parts.setups.get(order.setupId),
    pathId === undefined ? null : parts.paths.get(pathId),
  ]);
  if (blank.coating.kind === 'none' || (blank.coating.kind === 'fibre' && blank.polyesterPercent === 0)) {
    throw new Problem(
      'sheet.impossible',
      `${blank.name} takes no dye: sublimation needs polyester, as a coat or as cloth.`,
      { remedy: 'Choose a blank made for sublimation.', where: 'blankId' },
    );
  }
  return { order, output, blank, setup, path, material: materialFor(order, blank) };
}

export function sizeOf({ order, setup, material }: FoundOrder): TestSheetSize {
  const patches = 'patches' in order ? order.patches : null;
  return sheetSize(order, setup, material, patches);
}

/**
 * The sheet planned.
 * @param drawnSeed for a colour sheet whose order names none
 * Errors: sheet.impossible, and what the path's colours cost (profile.unsupported, chart.unusable, file.missing).
 */
export async function prepareTestSheet(
  parts: PrepareParts,
  found: FoundOrder,
  drawnSeed: number,
): Promise<PreparedTestSheet> {
  const size = sizeOf(found);
  const { blank, setup, material } = found;
  const order: TestSheetOrder =
    found.order.kind === 'colour' ? { ...found.order, seed: found.order.seed ?? drawnSeed } : found.order;
  const seed = order.kind === 'colour' ? (order.seed ?? drawnSeed) : seedFrom(digestFor(found, size));
  const sheetId =
    order.kind === 'colour'
      ? colourSheetId({ count: order.patches, seed, material })
      : ordinaryId(digestFor(found, size));
  const planned = await planTestSheet(parts.paths, { ...found, order, size, seed, sheetId });
  const remarks = [...remarksFor(order, blank, setup, size), ...planned.remarks];
  return { ...found, order, sheetId, ...planned, ppi: setup.ppi, remarks };
}

/** All that such a sheet is made from: asked for again it is the same sheet, and may be printed and read again. */
function digestFor({ order, blank, setup, path }: FoundOrder, size: TestSheetSize): Buffer {
  const from = { makingVersion, order, blank, setup, size, iccHash: path?.iccHash ?? null };
  return createHash('sha256').update(canonicalJson(from)).digest();
}

const seedFrom = (digest: Buffer): number => digest.readUInt32BE(8) & 0x1fffff;

/** An id that does not happen to read as that of a colour sheet. */
function ordinaryId(digest: Buffer): string {
  for (let bytes = digest; ; bytes = createHash('sha256').update(bytes).digest()) {
    const id = newSheetId(bytes);
    if (colourSheetRecipe(id) === null) return id;
  }
}
