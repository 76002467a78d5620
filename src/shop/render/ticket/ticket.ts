import PDFDocument from 'pdfkit';
import sharp from 'sharp';
import { asImageProblem } from '../artwork/image-problem.js';
import type { CouponTable, TicketRequest } from '../types.js';
import { OutFile } from '../writers/out-file.js';
import { drawCouponTable } from './coupon-table.js';
import { colours, page, scaled, styles } from './look.js';
import { drawQrCode } from './qr-code.js';
import { drawTickList, type TickList, tickListHeight } from './tick-list.js';
import { lineHeight, Typesetter } from './typesetter.js';
import { cautions, duration, lookStep, printSteps, size, temperature } from './words.js';

type Document = InstanceType<typeof PDFDocument>;

/** Twice the size it is printed at is all the picture's eye can use. */
const picturePixels = 1400;
const pictureHeight = 204;
const columnGap = 26;
const footerHeight = 62;
/** Lists are set smaller, step by step, when the recipe is long. */
const scales = [1, 0.93, 0.86, 0.79, 0.72];
/** At the press a page is read from further away. */
const pressScales = [1.2, 1.1, ...scales];

const inner = page.width - 2 * page.margin;
const half = (inner - columnGap) / 2;
const right = page.margin + half + columnGap;

/**
 * The press ticket: one page to lie beside the press, with the piece as it should read, the recipe large, and
 * boxes to tick; of a ladder its coupons on a page before. Whole under its name or not there.
 * Problems: `image.unreadable` for the picture, `disk.*`.
 */
export async function writeTicket(request: TicketRequest): Promise<void> {
  const picture = await sharp(request.picture)
    .flatten({ background: '#ffffff' })
    .resize(picturePixels, picturePixels, { fit: 'inside', withoutEnlargement: true })
    .jpeg({ quality: 90 })
    .toBuffer({ resolveWithObject: true })
    .catch((error: unknown) => Promise.reject(asImageProblem(error)));
  const doc = new PDFDocument({
    size: [page.width, page.height],
    margin: 0,
    info: {
      Title: `Press ticket ${request.sheetId}`,
      Creator: 'Dyewright',
      CreationDate: new Date(request.createdAt),
    },
  });
  const chunks: Buffer[] = [];
  const ended = new Promise<void>((resolve, reject) => {
    doc.on('data', (chunk: Buffer) => chunks.push(chunk));
    doc.on('end', () => resolve());
    doc.on('error', reject);
  });
  const set = new Typesetter(doc);
  if (request.coupons !== undefined) {
    drawCouponPage(doc, set, request, request.coupons);
    doc.addPage();
  }
  drawPage(doc, set, request, picture.data, picture.info);
  doc.end();
  await ended;
  const file = await OutFile.create(request.outPath);
  try {
    await file.append(...chunks);
    await file.commit();
  } catch (error) {
    await file.discard();
    throw error;
  }
}

function drawCouponPage(doc: Document, set: Typesetter, request: TicketRequest, table: CouponTable): void {
  const top = drawHead(doc, set, request);
  const bottom = page.height - page.margin - footerHeight - 16;
  drawCouponTable(doc, set, table, { x: page.margin, y: top, width: inner, bottom });
  drawFoot(doc, set, request);
}

function drawPage(
  doc: Document,
  set: Typesetter,
  request: TicketRequest,
  picture: Buffer,
  pictureSize: { readonly width: number; readonly height: number },
): void {
  const top = drawHead(doc, set, request);
  if (request.coupons !== undefined) {
    drawLists(doc, set, request, drawFace(set, request, top) + 16);
    drawFoot(doc, set, request);
    return;
  }
  drawPicture(doc, set, request, picture, pictureSize, top);
  const below = Math.max(top + pictureHeight + 20, drawRecipe(set, request, top));
  drawLists(doc, set, request, below + 16);
  drawFoot(doc, set, request);
}

function drawHead(doc: Document, set: Typesetter, request: TicketRequest): number {
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

function drawPicture(
  doc: Document,
  set: Typesetter,
  request: TicketRequest,
  picture: Buffer,
  { width, height }: { readonly width: number; readonly height: number },
  top: number,
): void {
  const { margin } = page;
  doc.roundedRect(margin, top, half, pictureHeight, 4).fill(colours.surround);
  const room = 16;
  const scale = Math.min((half - 2 * room) / width, (pictureHeight - 2 * room) / height);
  const [w, h] = [width * scale, height * scale];
  doc.image(picture, margin + (half - w) / 2, top + (pictureHeight - h) / 2, { width: w, height: h });
  const shown = request.testSheet
    ? [request.sheetWidthMm, request.sheetHeightMm]
    : [request.blank.widthMm, request.blank.heightMm];
  const caption = `As it should read on the piece: ${size(shown[0]!, shown[1]!)}`;
  set.paragraph(caption, styles.note, margin, top + pictureHeight + 5, half, 1);
}

function drawRecipe(set: Typesetter, { recipe, blank }: TicketRequest, top: number): number {
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
function drawFace(set: Typesetter, { blank }: TicketRequest, top: number): number {
  set.paragraph('WHICH FACE TAKES THE DYE', styles.label, page.margin, top, inner);
  return set.paragraph(capital(blank.side), styles.strong, page.margin, top + 12, inner, 2);
}

function drawLists(doc: Document, set: Typesetter, request: TicketRequest, top: number): void {
  const { margin } = page;
  const bottom = page.height - margin - footerHeight - 16;
  const care: TickList = {
    title: 'Take care',
    steps: request.cautions ?? cautions(request.blank.material),
    ticks: false,
  };
  const print: TickList = { title: 'At the printer', steps: printSteps(request), ticks: true };
  const press: TickList = {
    title: 'At the press',
    steps: [
      lookStep(request),
      ...(request.recipe.steps.length > 0 ? request.recipe.steps : ['Press as the maker of the blank says.']),
      ...(request.testSheet?.lastSteps ?? []),
    ],
    ticks: true,
  };
  const pad = 12;
  const room = bottom - top;
  const careHeight = (scale: number) => tickListHeight(set, care, half - 2 * pad, scale) + 2 * pad - 4;
  const leftScale = largestScale(
    scales,
    (s) => tickListHeight(set, print, half, s) + 18 + careHeight(s) <= room,
  );
  const rightScale = largestScale(pressScales, (s) => tickListHeight(set, press, half, s) <= room);
  // The cautions keep their place whatever else is long.
  const careTop = bottom - careHeight(leftScale);
  drawTickList(doc, set, print, { x: margin, y: top, width: half, bottom: careTop - 14 }, leftScale);
  drawTickList(doc, set, press, { x: right, y: top, width: half, bottom }, rightScale);
  doc.roundedRect(margin, careTop, half, bottom - careTop, 4).fill(colours.wash);
  const inside = { x: margin + pad, y: careTop + pad, width: half - 2 * pad, bottom: bottom + pad };
  drawTickList(doc, set, care, inside, leftScale);
}

function largestScale(from: readonly number[], fits: (scale: number) => boolean): number {
  return from.find(fits) ?? from.at(-1)!;
}

function drawFoot(doc: Document, set: Typesetter, request: TicketRequest): void {
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
