import type PDFDocument from 'pdfkit';
import { type FontRange, type FontWeight, fontBytes, fontRuns } from '../text/fonts.js';

type Document = InstanceType<typeof PDFDocument>;

export interface TextStyle {
  readonly size: number;
  readonly weight?: FontWeight;
  readonly colour: string;
  /** Baseline to baseline, in sizes. */
  readonly leading?: number;
  /** Extra space between letters, points. */
  readonly spacing?: number;
}

/** Of the size: ascent above the baseline as the bundled font has it, near enough for setting lines. */
const ascent = 0.78;
const boxWidth = 0.56;

/**
 * Sets lines of text on a PDF page with the bundled fonts, word by word, changing font files within a word where
 * letters need it. Letters that no font file holds are drawn as boxes: seen, and never a failure.
 */
export class Typesetter {
  readonly #doc: Document;
  readonly #registered = new Set<string>();

  constructor(doc: Document) {
    this.#doc = doc;
  }

  /** Width of a single line. */
  width(text: string, style: TextStyle): number {
    const spacing = (style.spacing ?? 0) * [...text].length;
    let total = spacing;
    for (const run of fontRuns(text, style.weight ?? 400)) {
      if (run.face === null) total += [...run.text].length * boxWidth * style.size;
      else {
        this.#use(run.face.range, style);
        total += this.#doc.widthOfString(run.text);
      }
    }
    return total;
  }

  /** Break text into lines no wider than `width`; words longer than a line are cut. */
  lines(text: string, style: TextStyle, width: number): string[] {
    const lines: string[] = [];
    let line = '';
    for (const word of tidy(text).split(' ').filter(Boolean)) {
      const longer = line === '' ? word : `${line} ${word}`;
      if (this.width(longer, style) <= width) {
        line = longer;
        continue;
      }
      if (line !== '') lines.push(line);
      line = word;
      while (this.width(line, style) > width && line.length > 1) {
        const fits = this.#longestStart(line, style, width);
        lines.push(fits);
        line = line.slice(fits.length);
      }
    }
    if (line !== '') lines.push(line);
    return lines;
  }

  /** Height of a wrapped paragraph. */
  height(text: string, style: TextStyle, width: number): number {
    return this.lines(text, style, width).length * lineHeight(style);
  }

  /** Set a paragraph with its top left at x, y; returns the y below it. Past `maxLines` it ends in an ellipsis. */
  paragraph(text: string, style: TextStyle, x: number, y: number, width: number, maxLines = 1000): number {
    const all = this.lines(text, style, width);
    const shown = all.slice(0, maxLines);
    if (all.length > maxLines) shown[maxLines - 1] = `${shown[maxLines - 1]!.slice(0, -1)}…`;
    let top = y;
    for (const line of shown) {
      this.#line(line, style, x, top);
      top += lineHeight(style);
    }
    return top;
  }

  /** One line whose right end is at x. */
  right(text: string, style: TextStyle, x: number, y: number): void {
    this.#line(tidy(text), style, x - this.width(tidy(text), style), y);
  }

  #line(text: string, style: TextStyle, x: number, y: number): void {
    let at = x;
    const spacing = style.spacing ?? 0;
    for (const run of fontRuns(text, style.weight ?? 400)) {
      if (run.face === null) {
        for (const _letter of run.text) {
          this.#box(at, y, style);
          at += boxWidth * style.size + spacing;
        }
        continue;
      }
      this.#use(run.face.range, style);
      const baseline = y + (lineHeight(style) - style.size) / 2 + ascent * style.size;
      this.#doc.fillColor(style.colour).text(run.text, at, baseline, {
        lineBreak: false,
        characterSpacing: spacing,
        baseline: 'alphabetic',
      });
      at += this.#doc.widthOfString(run.text) + spacing * [...run.text].length;
    }
  }

  #box(x: number, y: number, style: TextStyle): void {
    const top = y + (lineHeight(style) - style.size) / 2 + (ascent - 0.62) * style.size;
    this.#doc
      .lineWidth(0.5)
      .strokeColor(style.colour)
      .rect(x + 0.06 * style.size, top, (boxWidth - 0.12) * style.size, 0.62 * style.size)
      .stroke();
  }

  #longestStart(word: string, style: TextStyle, width: number): string {
    let fits = '';
    for (const letter of word) {
      if (fits !== '' && this.width(fits + letter, style) > width) break;
      fits += letter;
    }
    return fits;
  }

  #use(range: FontRange, style: TextStyle): void {
    const name = `${range}-${style.weight ?? 400}`;
    if (!this.#registered.has(name)) {
      this.#doc.registerFont(name, fontBytes(range, style.weight ?? 400)!);
      this.#registered.add(name);
    }
    this.#doc.font(name).fontSize(style.size);
  }
}

export function lineHeight(style: TextStyle): number {
  return style.size * (style.leading ?? 1.35);
}

/** Control characters and runs of blanks have no business on a page. */
function tidy(text: string): string {
  return text
    .normalize('NFC')
    .replace(/[\p{Cc}\p{Cf}\s]+/gu, ' ')
    .trim();
}
