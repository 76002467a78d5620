import type PDFDocument from 'pdfkit';
import { colours, scaled, styles } from './look.js';
import { lineHeight, type Typesetter } from './typesetter.js';

type Document = InstanceType<typeof PDFDocument>;

export interface TickList {
  readonly title: string;
  readonly steps: readonly string[];
  /** A cell with a box to tick, or a quiet dot. */
  readonly ticks: boolean;
}

const indent = 18;
const gap = 4.5;

export function tickListHeight(set: Typesetter, list: TickList, width: number, scale: number): number {
  const body = scaled(styles.body, scale);
  return (
    lineHeight(styles.heading) +
    6 +
    list.steps.reduce((sum, step) => sum + set.height(step, body, width - indent) + gap * scale, 0)
  );
}

/** Draw a list with its boxes; what does not fit above `bottom` is counted out loud. Returns the y below. */
export function drawTickList(
  doc: Document,
  set: Typesetter,
  list: TickList,
  at: { readonly x: number; readonly y: number; readonly width: number; readonly bottom: number },
  scale: number,
): number {
  const body = scaled(styles.body, scale);
  let y = set.paragraph(list.title, styles.heading, at.x, at.y, at.width) + 6;
  for (const [index, step] of list.steps.entries()) {
    const height = set.height(step, body, at.width - indent);
    const last = index === list.steps.length - 1;
    if (y + height > at.bottom - (last ? 0 : lineHeight(body))) {
      const left = list.steps.length - index;
      return set.paragraph(
        `and ${left} more, in the record`,
        scaled(styles.note, scale),
        at.x + indent,
        y,
        at.width,
      );
    }
    const middle = y + lineHeight(body) / 2;
    if (list.ticks) {
      doc
        .lineWidth(0.8)
        .strokeColor(colours.soft)
        .roundedRect(at.x, middle - 4.75, 9.5, 9.5, 1.8)
        .stroke();
    } else {
      doc.circle(at.x + 4, middle, 1.5).fill(colours.accent);
    }
    set.paragraph(step, body, at.x + indent, y, at.width - indent);
    y += height + gap * scale;
  }
  return y;
}
