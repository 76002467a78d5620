import type PDFDocument from 'pdfkit';
import type { CouponRow, CouponTable } from '../types.js';
import { colours, scaled, styles } from './look.js';
import { lineHeight, type TextStyle, type Typesetter } from './typesetter.js';

type Document = InstanceType<typeof PDFDocument>;

interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly bottom: number;
}

/** Rows are as high as the page lets them be: they are written in by hand. */
const rowHeights = { most: 34, least: 19 } as const;
const beforeHeight = 15;
const headHeight = 22;
const cell: TextStyle = { size: 12, weight: 600, colour: colours.ink };
const small: TextStyle = { size: 8, colour: colours.soft };

/** Shares of the width; the last two are for the pen. */
const columns = {
  number: 0.06,
  set: 0.12,
  time: 0.1,
  pressure: 0.14,
  really: 0.18,
  black: 0.245,
  edges: 0.155,
} as const;
type Column = keyof typeof columns;

/** What to press, in order, with room for what was really set and what was seen. */
export function drawCouponTable(doc: Document, set: Typesetter, table: CouponTable, at: Box): void {
  let y = at.y;
  for (const note of table.notes) y = set.paragraph(note, styles.body, at.x, y, at.width) + 2;
  y += 8;
  const places = placesOf(table, at);
  const heads: Readonly<Record<Column, string>> = {
    number: 'NO.',
    set: 'SET TO',
    time: 'TIME',
    pressure: 'PRESSURE',
    really: 'REALLY SET',
    black: 'BLACK IS',
    edges: 'EDGES ARE',
  };
  for (const [name, { x, width }] of places) set.paragraph(heads[name], styles.label, x, y, width);
  y += headHeight - 6;
  const changes = table.rows.filter(({ before }) => before !== null).length;
  const room = at.bottom - y - changes * beforeHeight;
  const rowHeight = Math.max(rowHeights.least, Math.min(rowHeights.most, room / table.rows.length));
  for (const row of table.rows) {
    if (row.before !== null) {
      doc.rect(at.x, y, at.width, beforeHeight).fill(colours.wash);
      const style = { ...small, size: 8.5, weight: 600, colour: colours.accent } as const;
      set.paragraph(row.before, style, at.x + 6, y + 2, at.width - 12, 1);
      y += beforeHeight;
    }
    drawRow(doc, set, row, places, y, rowHeight);
    y += rowHeight;
    rule(doc, at.x, at.x + at.width, y);
  }
}

type Places = ReadonlyMap<Column, { readonly x: number; readonly width: number }>;

function placesOf({ rows }: CouponTable, at: Box): Places {
  const hasPressure = rows.some(({ pressure }) => pressure !== null);
  const shown = (Object.keys(columns) as Column[]).filter((name) => name !== 'pressure' || hasPressure);
  const whole = shown.reduce((sum, name) => sum + columns[name], 0);
  const places = new Map<Column, { x: number; width: number }>();
  let { x } = at;
  for (const name of shown) {
    const width = (at.width * columns[name]) / whole;
    places.set(name, { x, width: width - 8 });
    x += width;
  }
  return places;
}

function drawRow(
  doc: Document,
  set: Typesetter,
  row: CouponRow,
  places: Places,
  top: number,
  height: number,
): void {
  const middle = top + height / 2;
  const one = (text: string, style: TextStyle, name: Column): void => {
    const place = places.get(name);
    if (place) set.paragraph(text, style, place.x, middle - lineHeight(style) / 2, place.width, 1);
  };
  const two = (figure: { large: string; small: string }, name: Column): void => {
    const place = places.get(name);
    if (!place) return;
    if (figure.small === '') {
      one(figure.large, cell, name);
      return;
    }
    const high = lineHeight(cell) + lineHeight(small) - 4;
    const scale = Math.min(1, (height - 1) / high);
    const from = middle - (high * scale) / 2;
    set.paragraph(figure.large, scaled(cell, scale), place.x, from, place.width, 1);
    const below = from + (lineHeight(cell) - 4) * scale;
    set.paragraph(figure.small, scaled(small, scale), place.x, below, place.width, 1);
  };
  one(String(row.number), { ...cell, colour: colours.accent }, 'number');
  two(row.set, 'set');
  one(row.time, cell, 'time');
  if (row.pressure !== null) two(row.pressure, 'pressure');
  const really = places.get('really')!;
  for (const [i, unit] of ['°C', 's'].entries()) {
    const half = really.width / 2;
    const right = really.x + (i + 1) * half - 4;
    set.right(unit, small, right, middle - lineHeight(small) / 2);
    rule(doc, really.x + i * half, right - (unit === 's' ? 7 : 13), middle + 6);
  }
  drawChoices(doc, set, ['green', 'neutral', 'brown'], places.get('black')!, middle);
  drawChoices(doc, set, ['crisp', 'soft'], places.get('edges')!, middle);
}

/** Small rings to mark one of. */
function drawChoices(
  doc: Document,
  set: Typesetter,
  words: readonly string[],
  { x, width }: { readonly x: number; readonly width: number },
  middle: number,
): void {
  const ring = 3.2;
  const widths = words.map((word) => 2 * ring + 3 + set.width(word, small));
  const spare = Math.max(3, (width - widths.reduce((sum, one) => sum + one, 0)) / words.length);
  let at = x;
  words.forEach((word, i) => {
    doc
      .lineWidth(0.7)
      .strokeColor(colours.soft)
      .circle(at + ring, middle, ring)
      .stroke();
    set.paragraph(word, small, at + 2 * ring + 3, middle - lineHeight(small) / 2, 60, 1);
    at += widths[i]! + spare;
  });
}

function rule(doc: Document, from: number, to: number, y: number): void {
  doc.lineWidth(0.5).strokeColor(colours.rule).moveTo(from, y).lineTo(to, y).stroke();
}
