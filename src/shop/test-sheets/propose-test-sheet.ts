import type { TestSheetProposal } from '#contract';
import { couponCounts } from '#craft/presswindow';
import { isProblem, type Problem, type ProblemCode } from '#craft/problem';
import { mostPatches } from '#craft/testsheet';
import { type FoundOrder, sizeOf } from './found-order.js';
import { planStandIn } from './plan-test-sheet.js';
import { seedOf } from './prepare-test-sheet.js';
import { remarksFor } from './remarks.js';
import {
  couponSide,
  couponsOn,
  millimetres,
  sizeWords,
  smallerSheet,
  type TestSheetSize,
} from './sheet-size.js';

/** Any id of the right form: a proposal has none yet. */
const noId = '0000000000';

/** What the sheet would be: how large its patches, how many at most. What does not fit is said, not thrown. */
export function proposeTestSheet(found: FoundOrder): TestSheetProposal {
  const { order, setup, material } = found;
  const refused = (problem: { message: string; remedy: string }, more: Partial<TestSheetProposal> = {}) => ({
    standing: `${problem.message} ${problem.remedy}`,
    possible: false,
    widthMm: order.widthMm ?? setup.paper.widthMm,
    heightMm: order.heightMm ?? setup.paper.heightMm,
    material,
    patches: askedOf(order),
    patchMm: null,
    mostPatches: 0,
    remarks: [],
    ladder: null,
    ...more,
  });
  let size: TestSheetSize;
  try {
    size = sizeOf(found);
  } catch (error) {
    if (isRefusal(error)) return refused(error);
    throw error;
  }
  const { widthMm, heightMm } = size;
  const most = mostOn(found, size);
  const remarks = remarksFor(found, size);
  try {
    const task = { ...found, size, seed: seedOf(found, size), sheetId: noId };
    const { patches, patchMm, ladder, remarks: own } = planStandIn(task);
    return {
      standing: `Ready to print: ${whatOf(order.kind, patches, patchMm)} on ${sizeWords(widthMm, heightMm)}.`,
      possible: true,
      widthMm,
      heightMm,
      material,
      patches,
      patchMm,
      mostPatches: most ?? patches,
      remarks: [...own, ...remarks, ...smallerRemarks(found, size)],
      ladder,
    };
  } catch (error) {
    if (isRefusal(error)) return refused(error, { widthMm, heightMm, mostPatches: most ?? 0, remarks });
    throw error;
  }
}

const refusals: readonly ProblemCode[] = ['sheet.impossible', 'press.invalid', 'press.unsafe'];
const isRefusal = (error: unknown): error is Problem => isProblem(error) && refusals.includes(error.code);

function askedOf(order: FoundOrder['order']): number {
  if ('patches' in order) return order.patches;
  if (order.kind === 'ladder') return order.coupons;
  return order.kind === 'palette' ? order.colours.length : 0;
}

/** Null: as many as there are. */
function mostOn({ order, material }: FoundOrder, size: TestSheetSize): number | null {
  if ('patches' in order) return mostPatches({ ...size, material });
  if (order.kind !== 'ladder') return null;
  return Math.min(couponCounts.most, couponsOn(size, couponSide(order, material)));
}

/** Few patches on large paper spend a large blank too. */
function smallerRemarks({ order, material }: FoundOrder, size: TestSheetSize): string[] {
  if (!('patches' in order) || order.widthMm !== undefined || order.heightMm !== undefined) return [];
  const smaller = smallerSheet(size, material, order.patches);
  if (smaller === null) return [];
  return [
    `${smaller.words} would do: its patches are ${millimetres(smaller.patchMm)} mm there, and a smaller piece is enough.`,
  ];
}

/** Errors: sheet.impossible for a sheet that does not fit; press.invalid, press.unsafe for a ladder that cannot be pressed. */
export function assertFits(found: FoundOrder): void {
  const size = sizeOf(found);
  planStandIn({ ...found, size, seed: seedOf(found, size), sheetId: noId });
}

function whatOf(kind: FoundOrder['order']['kind'], patches: number, patchMm: number): string {
  const of = `of ${millimetres(patchMm)} mm`;
  if (kind === 'grey') return `${patches} greys ${of}`;
  if (kind === 'ladder') return `${patches} coupons ${of}`;
  if (kind === 'evenness') return `one grey in ${patches} cells ${of}`;
  if (kind === 'palette') return patches === 1 ? 'one swatch' : `${patches} swatches`;
  return `${patches} patches ${of}`;
}
