import type { ColourPath, EyePicks, TestSheet } from '#contract';
import type { Triple } from '#craft/colour';
import { Problem } from '#craft/problem';
import type { ColourRoundParts } from './parts.js';

/**
 * From the labels a person picked on a grey sheet to a path of grade E.
 * Errors: record.missing; request.invalid for another sheet or a label that is not on it.
 */
export async function judgeByEye(
  { testSheets, paths }: ColourRoundParts,
  picks: EyePicks,
): Promise<ColourPath> {
  const sheet = await testSheets.get(picks.sheetId);
  const { grey } = sheet;
  if (grey === null) {
    throw new Problem('request.invalid', `The sheet ${sheet.id} is not a grey sheet.`, {
      remedy: 'Choose the grey sheet whose greys were judged.',
      where: 'sheetId',
    });
  }
  if (picks.neutrals.length !== grey.rows.length) {
    throw new Problem(
      'request.invalid',
      `The sheet has ${grey.rows.length} rows of greys; ${picks.neutrals.length} were judged.`,
      { remedy: 'Say for each row which grey is the most neutral.', where: 'neutrals' },
    );
  }
  const rows = grey.rows.map((row, i) => ({
    level: row.level,
    chosen: { deviceRgb: labelled(row.candidates, picks.neutrals[i]!, `neutrals[${i}]`) },
  }));
  const step = (question: 'from-black' | 'from-white' | 'like-card', label: string): Triple =>
    labelled(grey.tone.find((row) => row.question === question)?.steps ?? [], label, question);
  const basePathId = sheet.order.kind === 'grey' ? sheet.order.pathId : undefined;
  const snapshot = await testSheets.snapshot(sheet.id);
  return paths.judgedByEye({
    name: picks.name.trim() || nameOf(sheet),
    answers: {
      rows,
      fromBlack: step('from-black', picks.fromBlack),
      fromWhite: step('from-white', picks.fromWhite),
      likeCard: step('like-card', picks.likeCard),
    },
    base: basePathId === undefined ? null : await paths.get(basePathId),
    belongsTo: { setup: snapshot.setup, blank: snapshot.blank },
  });
}

const nameOf = (sheet: TestSheet): string => `${sheet.setupName} on ${sheet.blankName}, by eye`;

function labelled(
  steps: readonly { readonly label: string; readonly deviceRgb: Triple }[],
  label: string,
  where: string,
): Triple {
  const plain = label.trim().toUpperCase();
  const found = steps.find((step) => step.label.toUpperCase() === plain);
  if (found !== undefined) return found.deviceRgb;
  throw new Problem('request.invalid', `There is no “${label.slice(0, 20)}” in that row of the sheet.`, {
    remedy: `It has: ${steps.map((step) => step.label).join(', ')}.`,
    where,
  });
}
