import { createHash } from 'node:crypto';
import type { TestSheetOrder } from '#contract';
import { newSheetId } from '#craft/sheet';
import { colourSheetId, colourSheetRecipe } from '#craft/testsheet';
import { canonicalJson } from '#shop/store';
import { type FoundOrder, type PrepareParts, sizeOf } from './found-order.js';
import type { PlannedTestSheet } from './plan-task.js';
import { planTestSheet } from './plan-test-sheet.js';
import { remarksFor } from './remarks.js';
import type { TestSheetSize } from './sheet-size.js';

/** Raise when the same order would give another sheet than before. */
const makingVersion = 1;

/** And planned to the last mark; nothing has been drawn. */
export interface PreparedTestSheet extends FoundOrder, PlannedTestSheet {
  readonly sheetId: string;
  readonly ppi: number;
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
