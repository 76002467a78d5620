import { srgbFromLab } from '#craft/colour';
import { Problem } from '#craft/problem';
import { type Mark, type PlannedFrame, planFrame, planFrames, type RectMm } from '#craft/sheet';
import { fitGreyRoom, type GreyRoom, headCapMm, leastGreyPatchMm } from './grey-room.js';
import { blockLines, greyRows, ringsFor, toneRows } from './grey-steps.js';
import { leading, lineMarks, wrapped } from './label-text.js';
import type { GreyRow, GreySheetOrder, PlannedGreySheet, ToneRow } from './types.js';

/**
 * A sheet to be judged by eye beside a grey card: five blocks of near-neutrals (which has least colour?) and three rows
 * of tone (what stands out from black, from white, what is as light as the card?).
 *
 * @throws Problem `sheet.impossible` when patches of 12 mm find no room
 */
export function planGreySheet(order: GreySheetOrder): PlannedGreySheet {
  const { planned, room } = roomFor(order);
  const deviceOf = order.deviceOf ?? srgbFromLab;
  const rows = greyRows(deviceOf, ringsFor(deviceOf));
  const tone = toneRows(deviceOf);
  const marks: Mark[] = [
    ...planned.marks,
    ...rows.flatMap((row, i) => blockMarks(row, room, i)),
    ...wordsMarks(room.wordsBox),
    ...tone.flatMap((row, i) => toneMarks(row, room, i)),
  ];
  const { sheetId, widthMm, heightMm, mirrorOnWriting } = order;
  const { frame } = planned;
  return { plan: { sheetId, widthMm, heightMm, mirrorOnWriting, pieces: [], marks, frame }, rows, tone };
}

const howToLook = [
  'Let the piece cool. Look by a window or a daylight lamp, away from sun and coloured walls.',
  'A to E: hold a grey card beside the block. Which patch has least colour? Its name is under it.',
  'Further right is redder, left greener, up yellower, down bluer.',
  'F, G and H: what to look for stands over them.',
] as const;
const questions: Readonly<Record<ToneRow['question'], string>> = {
  'from-black': 'F: the first that stands out from black',
  'from-white': 'G: the first that stands out from bare ground',
  'like-card': 'H: the one as light as an 18\u00a0% grey card',
};
const labelCapMm = 2.2;
const letterCapMm = 5;

function roomFor(order: GreySheetOrder): { planned: PlannedFrame; room: GreyRoom } {
  const { widthMm, heightMm } = order;
  const exact = { ...order, caption: order.caption ?? 'Grey sheet, to be judged by eye beside a grey card' };
  for (const planned of planFrames(exact)) {
    const room = fitGreyRoom(planned.liveArea);
    if (room) return { planned, room };
  }
  const none = planFrame(exact);
  const size = `${Math.round(widthMm)} × ${Math.round(heightMm)} mm`;
  throw new Problem(
    'sheet.impossible',
    none.frame === null
      ? none.reason
      : `A grey sheet with patches of ${leastGreyPatchMm} mm, which eyes need, does not fit on ${size}.`,
    { remedy: 'Use a sheet of A4 or larger.' },
  );
}

/** A paragraph a sentence. */
function wordsMarks({ xMm, yMm, widthMm }: RectMm): Mark[] {
  let top = yMm + 1;
  return howToLook.flatMap((text) => {
    const { lines } = wrapped(text, widthMm / headCapMm);
    const marks = lineMarks(lines, { xMm, yMm: top, widthMm, capMm: headCapMm });
    top += (lines.length + 0.6) * leading * headCapMm;
    return marks;
  });
}

/** Nineteen patches in staggered lines, each with its name under it; the block's letter in its empty corner. */
function blockMarks({ candidates }: GreyRow, room: GreyRoom, block: number): Mark[] {
  const { patchMm, gapMm, linePitchMm } = room;
  const { xMm, yMm } = room.blocks[block]!;
  const most = Math.max(...blockLines);
  const marks: Mark[] = [
    label(candidates[0]!.label.slice(0, 1), xMm, yMm + letterCapMm + 1, patchMm, letterCapMm),
  ];
  let next = 0;
  blockLines.forEach((count, line) => {
    for (let i = 0; i < count; i += 1, next += 1) {
      const { deviceRgb, label: text } = candidates[next]!;
      const rect = {
        xMm: xMm + ((most - count) / 2 + i) * (patchMm + gapMm),
        yMm: yMm + line * linePitchMm,
        widthMm: patchMm,
        heightMm: patchMm,
      };
      marks.push({ kind: 'fill', rect, rgb: deviceRgb, role: 'patch' }, nameUnder(rect, text));
    }
  });
  return marks;
}

function toneMarks({ question, steps }: ToneRow, room: GreyRoom, row: number): Mark[] {
  const { xMm, yMm, widthMm } = room.tones[row]!;
  const { perLine, toneWidthMm, toneGapMm, patchMm, headLines } = room;
  const head = wrapped(questions[question], widthMm / headCapMm).lines;
  // A short head stands next to its row all the same.
  const headTop = yMm + (headLines - head.length) * leading * headCapMm;
  const marks = lineMarks(head, { xMm, yMm: headTop, widthMm, capMm: headCapMm });
  const bar = question === 'from-black' ? room.barMm : 0;
  steps.forEach(({ deviceRgb, label: text }, i) => {
    const rect: RectMm = {
      xMm: xMm + toneGapMm / 2 + (i % perLine) * (toneWidthMm + toneGapMm),
      yMm: yMm + room.headMm + bar + Math.floor(i / perLine) * (room.toneLineMm + 2 * bar),
      widthMm: toneWidthMm,
      heightMm: patchMm,
    };
    if (bar > 0) {
      // What is to stand out from black lies in black.
      const around = {
        xMm: rect.xMm - toneGapMm / 2,
        yMm: rect.yMm - bar,
        widthMm: toneWidthMm + toneGapMm,
        heightMm: patchMm + 2 * bar,
      };
      marks.push({ kind: 'fill', rect: around, rgb: [0, 0, 0], role: 'patch' });
    }
    marks.push(
      { kind: 'fill', rect, rgb: deviceRgb, role: 'patch' },
      nameUnder({ ...rect, heightMm: rect.heightMm + bar }, text),
    );
  });
  return marks;
}

function nameUnder({ xMm, yMm, widthMm, heightMm }: RectMm, text: string): Mark {
  return label(text, xMm, yMm + heightMm + 0.7 + labelCapMm, widthMm, labelCapMm);
}

const label = (text: string, xMm: number, yMm: number, maxWidthMm: number, capHeightMm: number): Mark => ({
  kind: 'text',
  xMm,
  yMm,
  capHeightMm,
  maxWidthMm,
  text,
  role: 'label',
});
