import PDFDocument from 'pdfkit';
import sharp from 'sharp';
import { asImageProblem } from '../artwork/image-problem.js';
import type { CouponTable, TicketRequest } from '../types.js';
import { OutFile } from '../writers/out-file.js';
import { drawCouponTable } from './coupon-table.js';
import { colours, columns, footerHeight, page } from './look.js';
import { drawFace, drawFoot, drawHead, drawPicture, drawRecipe } from './page-parts.js';
import { drawTickList, type TickList, tickListHeight } from './tick-list.js';
import { Typesetter } from './typesetter.js';
import { cautions, lookStep, printSteps } from './words.js';

type Document = InstanceType<typeof PDFDocument>;

/** Twice the size it is printed at is all the picture's eye can use. */
const picturePixels = 1400;
const pictureHeight = 204;
/** Where the cautions are more than the usual ones, the left column wants the room. */
const smallPictureHeight = 132;
/** Lists are set smaller, step by step, when the recipe is long. */
const scales = [1, 0.93, 0.86, 0.79, 0.72];
/** At the press a page is read from further away. */
const pressScales = [1.2, 1.1, ...scales];

const { inner, half, right } = columns;

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
    const below = drawFace(set, request, top) + 16;
    drawLists(doc, set, request, { left: below, right: below });
    drawFoot(doc, set, request);
    return;
  }
  const shownHeight = request.cautions === undefined ? pictureHeight : smallPictureHeight;
  drawPicture(doc, set, request, { data: picture, ...pictureSize, shownHeight }, top);
  const left = top + shownHeight + 36;
  const right = drawRecipe(set, request, top) + 16;
  const both = Math.max(left, right);
  drawLists(
    doc,
    set,
    request,
    request.cautions === undefined ? { left: both, right: both } : { left, right },
  );
  drawFoot(doc, set, request);
}

function drawLists(
  doc: Document,
  set: Typesetter,
  request: TicketRequest,
  tops: { readonly left: number; readonly right: number },
): void {
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
  const careHeight = (scale: number) => tickListHeight(set, care, half - 2 * pad, scale) + 2 * pad - 4;
  const leftScale = largestScale(
    scales,
    (s) => tickListHeight(set, print, half, s) + 18 + careHeight(s) <= bottom - tops.left,
  );
  const rightScale = largestScale(
    pressScales,
    (s) => tickListHeight(set, press, half, s) <= bottom - tops.right,
  );
  // The cautions keep their place whatever else is long.
  const careTop = bottom - careHeight(leftScale);
  drawTickList(doc, set, print, { x: margin, y: tops.left, width: half, bottom: careTop - 14 }, leftScale);
  drawTickList(doc, set, press, { x: right, y: tops.right, width: half, bottom }, rightScale);
  doc.roundedRect(margin, careTop, half, bottom - careTop, 4).fill(colours.wash);
  const inside = { x: margin + pad, y: careTop + pad, width: half - 2 * pad, bottom: bottom + pad };
  drawTickList(doc, set, care, inside, leftScale);
}

function largestScale(from: readonly number[], fits: (scale: number) => boolean): number {
  return from.find(fits) ?? from.at(-1)!;
}
