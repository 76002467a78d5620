import type { TestSheetProposal } from '#contract';
import { isProblem } from '#craft/problem';
import { mostPatches } from '#craft/testsheet';
import { planStandIn } from './plan-test-sheet.js';
import { type FoundOrder, sizeOf } from './prepare-test-sheet.js';
import { remarksFor } from './remarks.js';
import { millimetres, sizeWords, smallerSheet } from './sheet-size.js';

/** Any id of the right form: a proposal has none yet. */
const noId = '0000000000';

/** What the sheet would be: how large its patches, how many at most. What does not fit is said, not thrown. */
export function proposeTestSheet(found: FoundOrder): TestSheetProposal {
  const { order, blank, setup, material } = found;
  const asked = 'patches' in order ? order.patches : order.kind === 'palette' ? order.colours.length : 0;
  const refused = (problem: { message: string; remedy: string }, more: Partial<TestSheetProposal> = {}) => ({
    standing: `${problem.message} ${problem.remedy}`,
    possible: false,
    widthMm: order.widthMm ?? setup.paper.widthMm,
    heightMm: order.heightMm ?? setup.paper.heightMm,
    material,
    patches: asked,
    patchMm: null,
    mostPatches: 0,
    remarks: [],
    ...more,
  });
  let size: ReturnType<typeof sizeOf>;
  try {
    size = sizeOf(found);
  } catch (error) {
    if (isProblem(error) && error.code === 'sheet.impossible') return refused(error);
    throw error;
  }
  const { widthMm, heightMm } = size;
  const most = 'patches' in order ? mostPatches({ ...size, material }) : 0;
  const remarks = remarksFor(order, blank, setup, size);
  try {
    const { patches, patchMm } = planStandIn({ ...found, size, seed: 0, sheetId: noId });
    return {
      standing: `Ready to print: ${whatOf(order.kind, patches, patchMm)} on ${sizeWords(widthMm, heightMm)}.`,
      possible: true,
      widthMm,
      heightMm,
      material,
      patches,
      patchMm,
      mostPatches: 'patches' in order ? most : patches,
      remarks: [...remarks, ...smallerRemarks(found, size)],
    };
  } catch (error) {
    if (isProblem(error) && error.code === 'sheet.impossible')
      return refused(error, { widthMm, heightMm, mostPatches: most, remarks });
    throw error;
  }
}

/** Few patches on large paper spend a large blank too. */
function smallerRemarks({ order, material }: FoundOrder, size: ReturnType<typeof sizeOf>): string[] {
  if (!('patches' in order) || order.widthMm !== undefined || order.heightMm !== undefined) return [];
  const smaller = smallerSheet(size, material, order.patches);
  if (smaller === null) return [];
  return [
    `${smaller.words} would do: its patches are ${millimetres(smaller.patchMm)} mm there, and a smaller piece is enough.`,
  ];
}

/** Errors: sheet.impossible for a sheet that does not fit. */
export function assertFits(found: FoundOrder): void {
  planStandIn({ ...found, size: sizeOf(found), seed: 0, sheetId: noId });
}

function whatOf(kind: FoundOrder['order']['kind'], patches: number, patchMm: number): string {
  const of = `of ${millimetres(patchMm)} mm`;
  if (kind === 'grey') return `${patches} greys ${of}`;
  if (kind === 'palette') return patches === 1 ? 'one swatch' : `${patches} swatches`;
  return `${patches} patches ${of}`;
}
