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

/** The words for a box, most needed first: long boxes take sheet and caption in one line, columns apart. */
export function wordsFor(
  box: RectMm,
  sheetId: string,
  mirrorOnWriting: boolean,
  caption: string,
): { readonly text: string; readonly role: MarkRole }[] {
  const identity = `Sheet ${spokenSheetId(sheetId)} · print at 100 %`;
  const short = caption.trim().replace(/\s+/g, ' ');
  const kept = [...short].length > mostCaption ? `${[...short].slice(0, mostCaption - 1).join('')}…` : short;
  const isColumn = box.heightMm > box.widthMm;
  const labels = kept === '' ? [identity] : isColumn ? [identity, kept] : [`${identity} · ${kept}`];
  return [
    { text: readsBackwardsSentence(mirrorOnWriting), role: 'reads-backwards' },
    ...labels.map((text) => ({ text, role: 'label' as const })),
  ];
}

/**
 * The sentences set in a box as large as they fit, at most 2.6 mm capital height: in a long box one or two lines, in
 * a narrow upright one a column of short lines. The last are dropped before the
 * letters get too small to read.
 */
export function textMarks(box: RectMm, sentences: readonly { text: string; role: MarkRole }[]): Mark[] {
  for (let count = sentences.length; count > 0; count -= 1) {
    const wanted = sentences.slice(0, count);
    for (let capMm = largestCapMm; capMm >= smallestCapMm - 1e-9; capMm -= 0.1) {
      const mostCharacters = box.widthMm / (capMm * advanceInCaps);
      const lines = wanted.flatMap(({ text, role }) => evenly(text, mostCharacters, role));
      // A long word may be set a little narrower; every writer keeps to the mark's width.
      const isWideEnough = lines.every(({ text }) => text.length <= mostCharacters * 1.1);
      if (isWideEnough && blockMm(lines.length, capMm) + capMm * 0.3 <= box.heightMm) {
        return setLines(lines, capMm, box);
      }
    }
  }
  return [];
}

interface Line {
  readonly text: string;
  readonly role: MarkRole;
}

/** As few lines as will do, and these as even as may be: no last line of two words. */
function evenly(text: string, mostCharacters: number, role: MarkRole): Line[] {
  let lines = wrap(text, mostCharacters, role);
  for (let most = mostCharacters - 1; most > 0; most -= 1) {
    const narrower = wrap(text, most, role);
    if (narrower.length > lines.length) break;
    lines = narrower;
  }
  return lines;
}

function wrap(text: string, mostCharacters: number, role: MarkRole): Line[] {
  const lines: string[] = [];
  for (const word of text.split(/ +/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= mostCharacters) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  // A point between two statements says nothing at the end of a line.
  return lines.map((line, i) => ({ text: i < lines.length - 1 ? line.replace(/ ·$/, '') : line, role }));
}

const blockMm = (lines: number, capMm: number): number => ((lines - 1) * leading + 1) * capMm;

/** In the middle of a long box; at the top of an upright one, beside the code. */
function setLines(lines: readonly Line[], capHeightMm: number, box: RectMm): Mark[] {
  const spareMm = box.heightMm - blockMm(lines.length, capHeightMm);
  const topMm = box.yMm + (box.widthMm >= box.heightMm ? spareMm / 2 : Math.min(spareMm / 2, capHeightMm));
  return lines.map(({ text, role }, i) => ({
    kind: 'text',
    xMm: box.xMm,
    yMm: topMm + (i * leading + 1) * capHeightMm,
    capHeightMm,
    maxWidthMm: box.widthMm,
    text,
    role,
  }));
}
