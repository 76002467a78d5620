import type { Mark, MarkRole, RectMm } from './plan.js';
import { spokenSheetId } from './sheet-id.js';

const largestCapMm = 2.6;
const smallestCapMm = 1.1;
/** Longer captions are cut, so that they do not make the rest smaller. */
const mostCaption = 60;
/** Line pitch in cap heights. */
const leading = 1.65;
/** Mean advance of mixed English text in cap heights (Source Sans 3 measured about 0.74, with some in hand). */
const advanceInCaps = 0.8;

/** The sentences on every sheet. Whoever can read them on the paper has a sheet that is wrong. */
export function readsBackwardsSentence(mirrorOnWriting: boolean): string {
  const mend = mirrorOnWriting ? 'turn mirroring off in the driver' : 'turn mirroring on in the driver';
  return `Must read backwards on paper. If you can read this on the paper, ${mend} and print again.`;
}

export function identitySentence(sheetId: string, caption: string): string {
  const short = caption.trim().replace(/\s+/g, ' ');
  const kept = [...short].length > mostCaption ? `${[...short].slice(0, mostCaption - 1).join('')}…` : short;
  return [`Sheet ${spokenSheetId(sheetId)}`, 'print at 100 %', kept].filter((part) => part).join(' · ');
}

/**
 * The sentences set in a box as large as they fit, at most 2.6 mm capital height. The caption's line is dropped
 * before the letters get too small to read.
 *
 * @param box in the direction of reading: with `turned`, the box's length is the sheet's height.
 */
export function textMarks(
  box: RectMm,
  sentences: readonly { text: string; role: MarkRole }[],
  turned: boolean,
): Mark[] {
  const lengthMm = turned ? box.heightMm : box.widthMm;
  const depthMm = turned ? box.widthMm : box.heightMm;
  for (let count = sentences.length; count > 0; count -= 1) {
    const wanted = sentences.slice(0, count);
    for (let capMm = largestCapMm; capMm >= smallestCapMm - 1e-9; capMm -= 0.1) {
      const lines = wanted.flatMap(({ text, role }) => wrap(text, lengthMm / (capMm * advanceInCaps), role));
      if ((lines.length - 1) * leading * capMm + capMm * 1.3 <= depthMm) {
        return setLines(lines, capMm, box, turned);
      }
    }
  }
  return [];
}

interface Line {
  readonly text: string;
  readonly role: MarkRole;
}

function wrap(text: string, mostCharacters: number, role: MarkRole): Line[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= mostCharacters)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.map((line) => ({ text: line, role }));
}

function setLines(lines: readonly Line[], capHeightMm: number, box: RectMm, turned: boolean): Mark[] {
  const depthMm = turned ? box.widthMm : box.heightMm;
  const blockMm = ((lines.length - 1) * leading + 1) * capHeightMm;
  return lines.map(({ text, role }, i) => {
    const baselineMm = (depthMm - blockMm) / 2 + (i * leading + 1) * capHeightMm;
    const common = { kind: 'text', capHeightMm, text, role } as const;
    return turned
      ? {
          ...common,
          xMm: box.xMm + depthMm - baselineMm,
          yMm: box.yMm,
          maxWidthMm: box.heightMm,
          turned: true,
        }
      : { ...common, xMm: box.xMm, yMm: box.yMm + baselineMm, maxWidthMm: box.widthMm };
  });
}
