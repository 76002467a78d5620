import type { Mark } from '#craft/sheet';

/** Room from one line to the next, in cap heights: marks of two lines never touch. */
export const leading = 1.6;

/** How wide letters are set, in cap heights, rounded up (Source Sans 3, measured); what is not listed is `other`. */
const widths: readonly (readonly [number, string])[] = [
  [0.35, ' \u00a0'],
  [0.4, "',.:;Iijl|·’"],
  [0.45, '!f'],
  [0.5, '()-[]{}'],
  [0.55, '/\\rt'],
  [0.65, '"*?sz“”'],
  [0.7, 'cx'],
  [0.75, 'FJLYkvy–'],
  [0.8, '#$+0123456789<=>EVX^_aeg~'],
  [0.85, 'ASTZ`bdhnopqu'],
  [0.9, 'BCKPR'],
  [0.95, '&DG'],
  [1, 'HNU'],
  [1.05, 'OQ'],
  [1.1, 'w'],
  [1.15, 'M'],
  [1.2, 'W'],
];
/** Accented letters are as wide as their base; letters of other scripts may be as wide as this. */
const other = 1.5;
/** A no-break space holds what belongs together. */
const breaks = /[ \t\r\n]+/;
const widthOf = new Map(widths.flatMap(([width, letters]) => [...letters].map((letter) => [letter, width])));

/** No line is set wider than this says. */
export function widthInCaps(text: string): number {
  let sum = 0;
  for (const letter of text.normalize('NFC')) {
    sum += widthOf.get(letter) ?? widthOf.get(letter.normalize('NFD')[0]!) ?? other;
  }
  return sum;
}

/** Words in lines no wider than asked; words that are too long are broken, what is beyond `mostLines` is cut off. */
export function wrapped(text: string, mostCaps: number, mostLines = Number.POSITIVE_INFINITY): WrappedText {
  const lines: string[] = [];
  let line = '';
  const put = (word: string): void => {
    const longer = line === '' ? word : `${line} ${word}`;
    if (widthInCaps(longer) <= mostCaps) {
      line = longer;
      return;
    }
    if (line !== '') lines.push(line);
    line = '';
    for (const letter of word) {
      if (line !== '' && widthInCaps(line + letter) > mostCaps) {
        lines.push(line);
        line = '';
      }
      line += letter;
    }
  };
  for (const word of text.trim().split(breaks)) if (word !== '') put(word);
  if (line !== '') lines.push(line);
  if (lines.length <= mostLines) return { lines, isWhole: true };
  const kept = lines.slice(0, mostLines);
  let last = [kept.pop() ?? '', ...lines.slice(mostLines)].join(' ');
  while (last !== '' && widthInCaps(`${last}…`) > mostCaps) last = [...last].slice(0, -1).join('');
  return { lines: [...kept, `${last.trimEnd()}…`], isWhole: false };
}

export interface WrappedText {
  readonly lines: readonly string[];
  readonly isWhole: boolean;
}

/** Whether a text would be broken within a word. */
export const longestWordInCaps = (text: string): number =>
  Math.max(0, ...text.split(breaks).map((word) => widthInCaps(word)));

/** Lines under one another; `yMm` is the top of the first line's capitals. */
export function lineMarks(
  lines: readonly string[],
  at: { readonly xMm: number; readonly yMm: number; readonly widthMm: number; readonly capMm: number },
): Mark[] {
  return lines.map((text, i) => ({
    kind: 'text',
    xMm: at.xMm,
    yMm: at.yMm + at.capMm * (1 + i * leading),
    capHeightMm: at.capMm,
    maxWidthMm: at.widthMm,
    text,
    role: 'label',
  }));
}
