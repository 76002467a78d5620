import type { SheetPlan } from '#craft/sheet';
import {
  type ColourSheetOrder,
  choosePatches,
  planColourSheet,
  planGreySheet,
  planPaletteSheet,
} from '#craft/testsheet';
import type { ColourPaths } from '#shop/paths';
import type { ColourField, WantedColour } from './kept-plan.js';
import { planEvennessTask } from './plan-evenness-task.js';
import { planLadderTask } from './plan-ladder-task.js';
import { captionOf, noMore, type PlannedTestSheet, type PlanTask } from './plan-task.js';

/** What the path says of colours is asked of `paths`; where things go, of `craft/testsheet`. */
export async function planTestSheet(paths: ColourPaths, task: PlanTask): Promise<PlannedTestSheet> {
  const { order, seed } = task;
  switch (order.kind) {
    case 'colour':
      return planChart(task, choosePatches(order.patches, seed), null);
    case 'follow-up': {
      const { pathId, patches: count, towards, artworkId } = order;
      const chosen = await paths.followUpPatches(pathId, { count, seed, towards, artworkId });
      return planChart(
        task,
        chosen.map((rgb) => ({ rgb })),
        null,
      );
    }
    case 'check': {
      const chosen = await paths.checkPatches(order.pathId, { count: order.patches, seed });
      return planChart(
        task,
        chosen.map(({ rgb }) => ({ rgb })),
        chosen.map(({ relativeLab, kind }, i) => ({ chosen: i, relativeLab, kind })),
      );
    }
    case 'grey':
      return planGrey(task, await paths.greyDevice(order.pathId));
    case 'palette':
      return planPalette(task, await paths.paletteSwatches(order.pathId, order.colours));
    case 'ladder':
      return planLadderTask(task, order);
    case 'evenness':
      return planEvennessTask(task, order);
  }
}

/** The same sheet with stand-in colours: enough to know what fits, without asking the path anything. */
export function planStandIn(task: PlanTask): PlannedTestSheet {
  const { order } = task;
  if (order.kind === 'grey') return planGrey(task, undefined);
  if (order.kind === 'palette') {
    const count = order.colours.length || standInSwatches;
    const swatch = { deviceRgb: [128, 128, 128] as const, title: 'Colour', note: '#808080' };
    return planPalette(
      task,
      Array.from({ length: count }, () => swatch),
    );
  }
  if (order.kind === 'ladder') return planLadderTask(task, order);
  if (order.kind === 'evenness') return planEvennessTask(task, order);
  return planChart(
    task,
    Array.from({ length: order.patches }, () => ({ rgb: [0.5, 0.5, 0.5] as const })),
    null,
  );
}

/** As many as a palette has of which nobody named the colours. */
const standInSwatches = 96;

function planChart(
  task: PlanTask,
  patches: ColourSheetOrder['patches'],
  wanted: readonly WantedColour[] | null,
): PlannedTestSheet {
  const { size, material, seed, sheetId, setup } = task;
  const chart: ColourSheetOrder = {
    ...size,
    sheetId,
    material,
    seed,
    patches: patches.map(({ rgb }) => ({ rgb })),
    mirrorOnWriting: setup.mirroredBy === 'sheet',
    caption: captionOf(task, patches.length),
  };
  const { plan, layout } = planColourSheet(chart);
  return {
    plan,
    kept: { chart, wanted, fields: null },
    ...noMore,
    patches: patches.length,
    patchMm: layout.pitchMm - layout.gapMm,
    remarks: [],
  };
}

function planGrey(
  task: PlanTask,
  deviceOf: Parameters<typeof planGreySheet>[0]['deviceOf'],
): PlannedTestSheet {
  const { size, sheetId, setup } = task;
  const { plan, rows, tone } = planGreySheet({
    ...size,
    sheetId,
    mirrorOnWriting: setup.mirroredBy === 'sheet',
    caption: captionOf(task, 0),
    deviceOf,
  });
  const fields = fieldsOf(plan);
  const patches = [...rows.map((row) => row.candidates.length), ...tone.map((row) => row.steps.length)];
  return {
    plan,
    kept: { chart: null, wanted: null, fields },
    ...noMore,
    grey: {
      rows: rows.map(({ level, candidates }) => ({
        level,
        candidates: candidates.map((one) => ({ ...one, deviceRgb: [...one.deviceRgb] })),
      })),
      tone: tone.map(({ question, steps }) => ({
        question,
        steps: steps.map((one) => ({ ...one, deviceRgb: [...one.deviceRgb] })),
      })),
    },
    patches: patches.reduce((sum, count) => sum + count, 0),
    patchMm: smallestSide(fields),
    remarks: [],
  };
}

function planPalette(
  task: PlanTask,
  swatches: Parameters<typeof planPaletteSheet>[0]['swatches'],
): PlannedTestSheet {
  const { size, sheetId, setup } = task;
  const planned = planPaletteSheet({
    ...size,
    sheetId,
    mirrorOnWriting: setup.mirroredBy === 'sheet',
    caption: captionOf(task, swatches.length),
    swatches,
  });
  const fields = fieldsOf(planned.plan);
  return {
    plan: planned.plan,
    kept: { chart: null, wanted: null, fields },
    ...noMore,
    patches: swatches.length,
    patchMm: Math.min(...planned.swatches.map(({ rect }) => Math.min(rect.widthMm, rect.heightMm))),
    remarks: [],
  };
}

function fieldsOf(plan: SheetPlan): ColourField[] {
  return plan.marks.flatMap((mark) =>
    mark.kind === 'fill' && mark.role === 'patch' ? [{ rect: mark.rect, deviceRgb: mark.rgb }] : [],
  );
}

const smallestSide = (fields: readonly ColourField[]): number =>
  fields.length === 0 ? 0 : Math.min(...fields.flatMap(({ rect }) => [rect.widthMm, rect.heightMm]));
