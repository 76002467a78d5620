import type { SheetUnderCheck } from './subject.js';
import type { SheetCheck } from './types.js';

/** Whether pieces and marks found room on the paper, and how. */
export function checkSheetRoom({ layout, outline, bleedMm }: SheetUnderCheck): SheetCheck[] {
  const { plan, piecesAsked, piecesPlaced, paperThatWouldDo } = layout;
  if (piecesPlaced === 0) {
    return [
      {
        code: 'sheet.does-not-fit',
        level: 'stop',
        title: 'This blank does not fit the paper',
        detail:
          `With its bleed the picture measures ${mm(outline.widthMm + 2 * bleedMm)} × ${mm(outline.heightMm + 2 * bleedMm)} mm; ` +
          `that is more than can be printed on ${mm(plan.widthMm)} × ${mm(plan.heightMm)} mm, either way round.`,
        remedy: paperThatWouldDo
          ? `Choose a print setup with larger paper: ${paperThatWouldDo} would do.`
          : 'No usual paper is large enough: choose a smaller blank, or print it in parts elsewhere.',
        value: null,
        unit: null,
      },
    ];
  }
  const checks: SheetCheck[] = [];
  if (piecesPlaced < piecesAsked) {
    const sheets = Math.ceil(piecesAsked / piecesPlaced);
    checks.push({
      code: 'sheet.not-all-copies',
      level: 'look',
      title: `${piecesPlaced} of ${piecesAsked} pieces fit on this sheet`,
      detail: `The paper takes ${piecesPlaced} of them with their bleed and marks.`,
      remedy:
        `Print ${sheets} sheets of ${piecesPlaced}` +
        (sheets * piecesPlaced > piecesAsked ? ` (${sheets * piecesPlaced - piecesAsked} to spare)` : '') +
        (paperThatWouldDo ? `, or choose larger paper: ${paperThatWouldDo} would take all.` : '.'),
      value: piecesPlaced,
      unit: 'pieces',
    });
  }
  if (plan.frame === null) {
    checks.push({
      code: 'sheet.no-room-for-marks',
      level: 'look',
      title: 'The paper has no room for the marks',
      detail:
        'The picture takes the whole printable area, so the sheet cannot be read back: ' +
        'nothing on it tells whether it was mirrored, scaled or printed by the wrong route.',
      remedy: paperThatWouldDo
        ? `Choose larger paper (${paperThatWouldDo} would do), or check mirroring and size yourself before pressing.`
        : 'Check mirroring and size yourself before pressing.',
      value: null,
      unit: null,
    });
  }
  if (layout.turned) {
    checks.push({
      code: 'sheet.turned',
      level: 'note',
      title: 'The pieces lie turned on the sheet',
      detail: 'They are turned by a quarter so that they make better use of the paper; nothing else changes.',
      remedy: 'Turn the paper, not the picture, when you lay it on the blank.',
      value: 90,
      unit: '°',
    });
  }
  return checks;
}

function mm(value: number): string {
  return String(Math.round(value * 10) / 10);
}
