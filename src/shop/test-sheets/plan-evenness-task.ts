import type { TestSheetOrder } from '#contract';
import { Problem } from '#craft/problem';
import { type EvennessSheetOrder, planEvennessSheet } from '#craft/testsheet';
import { captionOf, noMore, type PlannedTestSheet, type PlanTask } from './plan-task.js';

type EvennessOrder = Extract<TestSheetOrder, { kind: 'evenness' }>;

/** Errors: sheet.impossible, when there is no room or nothing flat to lay it on. */
export function planEvennessTask(task: PlanTask, order: EvennessOrder): PlannedTestSheet {
  const { size, material, sheetId, setup, press } = task;
  if (press !== null && press.press.kind !== 'flat') {
    throw new Problem(
      'sheet.impossible',
      `An evenness sheet is pressed under a flat platen, and “${press.press.name}” has none.`,
      {
        remedy: 'Choose a flat press. Of a mug press or an oven, type in temperatures instead.',
        where: 'pressId',
      },
    );
  }
  const evenness: EvennessSheetOrder = {
    ...size,
    sheetId,
    material,
    mirrorOnWriting: setup.mirroredBy === 'sheet',
    caption: captionOf(task, 0),
  };
  const { plan, layout, variant } = planEvennessSheet(evenness);
  return {
    plan,
    kept: { chart: null, wanted: null, fields: null, evenness: { ...evenness, variant } },
    ...noMore,
    evenness: { columns: layout.columns, rows: layout.rows, pressId: order.pressId ?? null },
    patches: layout.patches.length,
    patchMm: layout.pitchMm - layout.gapMm,
    remarks: coverRemarks(task),
  };
}

/** Round what share of the platen a sheet lies; what is left cannot be told of. */
const nearlyAll = 0.9;

function coverRemarks({ press, size }: PlanTask): string[] {
  if (press === null) return ['No press is named: the map will be kept without one.'];
  const { name, platenWidthMm: width, platenDepthMm: depth } = press.press;
  const share = (size.widthMm * size.heightMm) / (width * depth);
  if (size.widthMm > width + 1 || size.heightMm > depth + 1)
    return [`The sheet is larger than the platen of “${name}”: its edges will not be pressed.`];
  if (share >= nearlyAll) return [];
  return [
    `The sheet covers ${Math.round(100 * share)} % of the platen of “${name}”: lay it in the middle. Of the rest it says nothing; larger paper would.`,
  ];
}
