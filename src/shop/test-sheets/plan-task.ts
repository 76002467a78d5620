import type { Blank, PrintSetup, TestSheet, TestSheetOrder } from '#contract';
import type { SheetPlan } from '#craft/sheet';
import type { SheetMaterial } from '#craft/testsheet';
import type { FoundPress } from './found-press.js';
import type { KeptPlan } from './kept-plan.js';
import type { TestSheetSize } from './sheet-size.js';

export interface PlanTask {
  readonly order: TestSheetOrder;
  readonly size: TestSheetSize;
  readonly material: SheetMaterial;
  readonly seed: number;
  readonly sheetId: string;
  readonly blank: Pick<Blank, 'name' | 'recipe'>;
  readonly setup: Pick<PrintSetup, 'mirroredBy' | 'paper'>;
  readonly path: { readonly name: string } | null;
  readonly press: FoundPress | null;
}

export interface PlannedTestSheet {
  readonly plan: SheetPlan;
  readonly kept: KeptPlan;
  readonly grey: TestSheet['grey'];
  readonly ladder: TestSheet['ladder'];
  readonly evenness: TestSheet['evenness'];
  /** Colours asked for, without controls; a ladder's coupons. */
  readonly patches: number;
  /** Their side. */
  readonly patchMm: number;
  readonly remarks: readonly string[];
}

/** Of sheets that are neither for greys nor for the press. */
export const noMore = { grey: null, ladder: null, evenness: null } as const;

/** The words over the sheet. */
export function captionOf({ order, blank, path, press }: PlanTask, count: number): string {
  const what = {
    colour: `Colour test sheet, ${count} patches`,
    'follow-up': `Follow-up sheet, ${count} patches`,
    check: `Check sheet, ${count} patches`,
    grey: 'Grey sheet',
    palette: `Palette, ${count} colours`,
    ladder: `Ladder, ${count} coupons`,
    evenness: 'Evenness sheet: this edge to the back of the press',
  }[order.kind];
  const through = path === null ? [] : [path.name];
  return [what, blank.name, ...through, ...(press === null ? [] : [press.press.name])].join(' · ');
}
