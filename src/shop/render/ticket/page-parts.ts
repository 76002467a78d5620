import type PDFDocument from 'pdfkit';
import type { TicketRequest } from '../types.js';
import { colours, columns, footerHeight, page, scaled, styles } from './look.js';
import { drawQrCode } from './qr-code.js';
import { lineHeight, type Typesetter } from './typesetter.js';
import { duration, size, temperature } from './words.js';

type Document = InstanceType<typeof PDFDocument>;

const { inner, half, right } = columns;

export function drawHead(doc: Document, set: Typesetter, request: TicketRequest): number {
  const { margin } = page;
  set.paragraph('PRESS TICKET', styles.label, margin, margin, half);
  set.right('SHEET', styles.label, page.width - margin, margin);
  set.right(request.sheetId, styles.sheetId, page.width - margin, margin + 13);
  const titleWidth = inner - 150;
  let y = set.paragraph(
    withoutExtension(request.artworkName),
    styles.title,
    margin,
    margin + 13,
    titleWidth,
    2,
  );
  const pieces = request.copies === 1 ? 'one piece' : `${request.copies} pieces`;
  const under = request.testSheet?.pressedOn ?? `${request.blank.name}, ${pieces}`;
  y = set.paragraph(under, styles.under, margin, y + 1, titleWidth, 2);
  if (request.demo) {
    y = set.paragraph('Demo: the names here are invented.', styles.note, margin, y + 1, titleWidth);
  }
  y += 10;
  doc
    .lineWidth(0.7)
    .strokeColor(colours.rule)
    .moveTo(margin, y)
    .lineTo(page.width - margin, y)
    .stroke();
  return y + 16;
}

export interface ShownPicture {
  readonly data: Buffer;
  readonly width: number;
  readonly height: number;
  readonly shownHeight: number;
}

export function drawPicture(
  doc: Document,
  set: Typesetter,
  request: TicketRequest,
  picture: ShownPicture,
  top: number,
): void {
  const { margin } = page;
  const { data, width, height, shownHeight } = picture;
  doc.roundedRect(margin, top, half, shownHeight, 4).fill(colours.surround);
  const room = 16;
  const scale = Math.min((half - 2 * room) / width, (shownHeight - 2 * room) / height);
  const [w, h] = [width * scale, height * scale];
  doc.image(data, margin + (half - w) / 2, top + (shownHeight - h) / 2, { width: w, height: h });
  const shown = request.testSheet
    ? [request.sheetWidthMm, request.sheetHeightMm]
    : [request.blank.widthMm, request.blank.heightMm];
  const caption = `As it should read on the piece: ${size(shown[0]!, shown[1]!)}`;
  set.paragraph(caption, styles.note, margin, top + shownHeight + 5, half, 1);
}

export function drawRecipe(set: Typesetter, { recipe, blank }: TicketRequest, top: number): number {
  const { celsius, fahrenheit } = temperature(recipe.platenC);
  const column = (half - 10) / 2;
  set.paragraph('TEMPERATURE', styles.label, right, top, column);
  set.paragraph('TIME', styles.label, right + column + 10, top, column);
  const time = duration(recipe.dwellSeconds);
  const fitted = Math.min(1, column / set.width(time, styles.figure));
  const figures = top + 14;
  set.paragraph(celsius, styles.figure, right, figures, column + 10);
  set.paragraph(
    time,
    scaled(styles.figure, fitted),
    right + column + 10,
    figures + (1 - fitted) * 24,
    column + 8,
  );
  const under = figures + lineHeight(styles.figure);
  set.paragraph(fahrenheit, styles.figureSmall, right, under, column);
  const seconds = recipe.dwellSeconds >= 60 ? `${recipe.dwellSeconds} s` : '';
  set.paragraph(seconds, styles.figureSmall, right + column + 10, under, column);
  let y = under + lineHeight(styles.figureSmall) + 12;
  set.paragraph('PRESSURE', styles.label, right, y, half);
  y = set.paragraph(capital(recipe.pressure), styles.strong, right, y + 12, half) + 8;
  set.paragraph('WHICH FACE TAKES THE DYE', styles.label, right, y, half);
  y = set.paragraph(capital(blank.side), styles.strong, right, y + 12, half, 3) + 8;
  return set.paragraph(recipe.basis, styles.note, right, y, half, 5);
}

/** Where the figures are on the page before. */
export function drawFace(set: Typesetter, { blank }: TicketRequest, top: number): number {
  set.paragraph('WHICH FACE TAKES THE DYE', styles.label, page.margin, top, inner);
  return set.paragraph(capital(blank.side), styles.strong, page.margin, top + 12, inner, 2);
}

export function drawFoot(doc: Document, set: Typesetter, request: TicketRequest): void {
  const { margin } = page;
  const top = page.height - margin - footerHeight;
  doc
    .lineWidth(0.7)
    .strokeColor(colours.rule)
    .moveTo(margin, top - 8)
    .lineTo(page.width - margin, top - 8)
    .stroke();
  const withCode = request.recordUrl !== null;
  if (request.recordUrl !== null) drawQrCode(doc, request.recordUrl, margin, top, footerHeight, colours.ink);
  const x = withCode ? margin + footerHeight + 14 : margin;
  const width = page.width - margin - x;
  let y = set.paragraph(request.colourSentence, styles.body, x, top - 1, width, 2);
  const { setup } = request;
  y = set.paragraph(
    `${setup.name}: ${setup.printer}, ${setup.ink}, ${setup.paper}`,
    styles.note,
    x,
    y + 1,
    width,
    1,
  );
  const made = `Made ${request.createdAt.slice(0, 16).replace('T', ' ')} UTC`;
  const link = withCode ? `. The code opens this sheet’s record: ${request.recordUrl}` : '';
  set.paragraph(made + link, styles.note, x, y, width, 1);
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

function withoutExtension(fileName: string): string {
  return fileName.replace(/\.(png|jpe?g|tiff?|webp|gif|svg)$/i, '');
}
