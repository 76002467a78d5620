import path from 'node:path';
import type { Check, OutputFormat, Sheet, SheetFile, SheetProposal } from '#contract';
import { builtinProfile, encodeProfile } from '#craft/icc';
import { Problem } from '#craft/problem';
import type { ContentFiles, Scratch } from '#shop/files';
import { makeSheetFile, writeTicket } from '#shop/render';
import type { Records } from '#shop/store';
import { unlessAborted } from './aborted.js';
import type { ColourDesk } from './colour.js';
import type { PreparedSheet } from './prepare.js';
import { previewSheet } from './preview.js';
import { checksOf } from './propose.js';

export interface MakeParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly scratch: Scratch;
  readonly colour: ColourDesk;
  /** Looks the sheet over, pixels and all, for its record. */
  readonly propose: (prepared: PreparedSheet) => Promise<SheetProposal>;
  readonly workers: number | undefined;
  readonly now: () => Date;
}

export interface MakeOptions {
  /** 0..1 and what is being done now. */
  readonly onProgress?: ((progress: number, step: string) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Where a person finds the record; the ticket's code leads there. Null: no code. */
  readonly recordUrl: string | null;
  readonly demo?: boolean | undefined;
}

/** Long side of the picture on the ticket: fine enough for half an A4 page. */
const ticketPicturePixels = 1400;
/** The shares of the whole work; drawing the sheet is nearly all of it. */
const drawn = 0.92;

/** Throws sheet.impossible when a check says that the sheet would be wrong. Looks at no pixel. */
export function refuseWrongSheet(prepared: PreparedSheet): void {
  const stop = checksOf(prepared, null, null).find((check) => check.level === 'stop');
  if (stop === undefined) return;
  throw new Problem('sheet.impossible', `${sentence(stop.title)} ${stop.detail}`.trim(), {
    remedy: stop.remedy,
    where: stop.code,
  });
}

/**
 * Makes the sheet and its ticket and records them; all of it or nothing. The same sheet again is found, not made.
 * Errors: sheet.impossible, output.unsupported, image.unreadable, job.cancelled, disk.full, disk.failed.
 */
export async function makeSheet(
  parts: MakeParts,
  prepared: PreparedSheet,
  options: MakeOptions,
): Promise<Sheet> {
  refuseWrongSheet(prepared);
  const there = await madeBefore(parts, prepared.sheetId);
  if (there !== undefined) return there;
  return parts.scratch.within(async (folder) => {
    const say = options.onProgress ?? (() => undefined);
    const names = fileNames(prepared);
    const sheetPath = path.join(folder, `sheet.${prepared.output.format}`);
    const ticketPath = path.join(folder, 'ticket.pdf');
    await drawSheet(parts, prepared, { outPath: sheetPath, tempFolder: folder, say, signal: options.signal });
    say(drawn, 'Writing the press ticket');
    await drawTicket(parts, prepared, { outPath: ticketPath, options });
    options.signal?.throwIfAborted();
    say(0.97, 'Putting it in the shop folder');
    const files: SheetFile[] = [
      await keepFile(parts.files, sheetPath, {
        kind: 'sheet',
        format: prepared.output.format,
        fileName: names.sheet,
      }),
      await keepFile(parts.files, ticketPath, { kind: 'ticket', format: 'pdf', fileName: names.ticket }),
    ];
    const { checks } = await parts.propose(prepared);
    const sheet = recordOf(parts, prepared, { files, checks, demo: options.demo ?? false });
    const { blank, setup, colour } = prepared;
    await parts.records.sheets.put(sheet, { blank, setup, colourPath: colour.path });
    return sheet;
  });
}

async function madeBefore(parts: MakeParts, sheetId: string): Promise<Sheet | undefined> {
  const sheet = await parts.records.sheets.get(sheetId);
  if (sheet === undefined) return undefined;
  const there = await Promise.all(sheet.files.map((file) => parts.files.has(file.contentHash)));
  return there.every(Boolean) ? sheet : undefined;
}

async function drawSheet(
  parts: MakeParts,
  prepared: PreparedSheet,
  to: {
    outPath: string;
    tempFolder: string;
    say: (progress: number, step: string) => void;
    signal: AbortSignal | undefined;
  },
): Promise<void> {
  to.say(0.01, 'Working the colour out');
  const link = await unlessAborted(parts.colour.link(prepared.artwork, prepared.colour), to.signal);
  await makeSheetFile({
    plan: prepared.layout.plan,
    ppi: prepared.ppi,
    artworkPath: prepared.artwork.path,
    artworkFacts: prepared.artwork.facts,
    link,
    output: prepared.output,
    outPath: to.outPath,
    tempFolder: to.tempFolder,
    // Without a colour path the pixels are sRGB, and that is what a tag then says.
    iccBytes: prepared.colour.iccBytes ?? encodeProfile(builtinProfile('srgb')),
    onProgress: ({ fraction, step }) => to.say(0.02 + fraction * (drawn - 0.02), step),
    ...(parts.workers === undefined ? {} : { workers: parts.workers }),
    ...(to.signal === undefined ? {} : { signal: to.signal }),
  });
}

async function drawTicket(
  parts: MakeParts,
  prepared: PreparedSheet,
  to: { outPath: string; options: MakeOptions },
): Promise<void> {
  const { blank, setup, artwork, outline, layout, colour } = prepared;
  const picture = await previewSheet(parts.colour, parts.scratch, prepared, 'pressed', {
    maxPixels: ticketPicturePixels,
    signal: to.options.signal,
  });
  await writeTicket({
    outPath: to.outPath,
    sheetId: prepared.sheetId,
    artworkName: artwork.record.fileName,
    picture,
    blank: {
      name: blank.name,
      material: blank.material,
      side: blank.coating.side,
      seenThrough: blank.coating.seenThrough === true,
      widthMm: outline.widthMm,
      heightMm: outline.heightMm,
    },
    copies: layout.piecesPlaced,
    recipe: blank.recipe,
    setup: {
      name: setup.name,
      printer: setup.printer,
      ink: setup.ink,
      paper: setup.paper.name,
      printSide: setup.paper.printSide,
      driverSettings: setup.driverSettings,
      mirroredBy: setup.mirroredBy,
      ppi: prepared.ppi,
    },
    sheetWidthMm: layout.plan.widthMm,
    sheetHeightMm: layout.plan.heightMm,
    colourSentence: colour.sentence,
    recordUrl: to.options.recordUrl,
    createdAt: parts.now().toISOString(),
    demo: to.options.demo ?? false,
  });
}

async function keepFile(
  files: ContentFiles,
  from: string,
  as: { kind: SheetFile['kind']; format: OutputFormat; fileName: string },
): Promise<SheetFile> {
  const kept = await files.adopt(from);
  return { ...as, contentHash: kept.hash, bytes: kept.bytes };
}

function recordOf(
  parts: MakeParts,
  prepared: PreparedSheet,
  more: { files: SheetFile[]; checks: Check[]; demo: boolean },
): Sheet {
  const { plan } = prepared.layout;
  return {
    id: prepared.sheetId,
    request: prepared.request,
    output: prepared.output,
    blankName: prepared.blank.name,
    setupName: prepared.setup.name,
    artworkName: prepared.artwork.record.fileName,
    mirroredBy: prepared.setup.mirroredBy,
    widthMm: plan.widthMm,
    heightMm: plan.heightMm,
    ppi: prepared.ppi,
    calibrated: prepared.colour.path !== null,
    colourSentence: prepared.colour.sentence,
    createdAt: parts.now().toISOString(),
    ...more,
  };
}

/** Names of letters, digits and hyphens only: 'slate-coaster-round-100-7K3M9QX4PA.pdf', '…-ticket.pdf'. */
function fileNames(prepared: PreparedSheet): { sheet: string; ticket: string } {
  const stem = `${prepared.blank.id}-${prepared.sheetId}`;
  const extension = prepared.output.format === 'tiff' ? 'tif' : prepared.output.format;
  return { sheet: `${stem}.${extension}`, ticket: `${stem}-ticket.pdf` };
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}
