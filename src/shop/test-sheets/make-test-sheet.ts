import path from 'node:path';
import type { OutputFormat, SheetFile, TestSheet } from '#contract';
import type { ContentFiles, Scratch } from '#shop/files';
import { renderPreview, writeTicket } from '#shop/render';
import { dropUnnamed, type Records } from '#shop/store';
import { drawTestSheetFile } from './draw-test-sheet.js';
import type { PreparedTestSheet } from './prepare-test-sheet.js';
import { ticketFor } from './ticket-words.js';

export interface MakeParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly scratch: Scratch;
  readonly workers: number | undefined;
  readonly now: () => Date;
  /** The profile that the setup's work is tagged with. */
  readonly tagOf: (prepared: PreparedTestSheet) => Promise<Uint8Array | null>;
}

export interface MakeTestSheetOptions {
  /** 0..1 and what is being done now. */
  readonly onProgress?: ((progress: number, step: string) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
  /** Where a person finds the record; the ticket's code leads there. Null: no code. */
  readonly recordUrl: string | null;
  readonly demo?: boolean | undefined;
}

/** Long side of the picture on the ticket. */
const ticketPicturePixels = 1000;
const drawn = 0.85;

/**
 * Makes the sheet and its ticket and records them; all of it or nothing.
 * Errors: sheet.impossible, output.unsupported, job.cancelled, disk.full, disk.failed.
 */
export async function makeTestSheet(
  parts: MakeParts,
  prepared: PreparedTestSheet,
  options: MakeTestSheetOptions,
): Promise<TestSheet> {
  const { signal, demo = false } = options;
  const say = options.onProgress ?? (() => undefined);
  const { plan, output, sheetId } = prepared;
  const fresh: string[] = [];
  try {
    return await parts.scratch.within(async (folder) => {
      const sheetPath = path.join(folder, `sheet.${output.format}`);
      const ticketPath = path.join(folder, 'ticket.pdf');
      say(0.01, 'Drawing the sheet');
      await drawTestSheetFile({
        plan,
        ppi: prepared.ppi,
        output,
        iccBytes: output.colourTag === 'tagged' ? await parts.tagOf(prepared) : null,
        outPath: sheetPath,
        tempFolder: folder,
        workers: parts.workers,
        signal,
        onProgress: (share, step) => say(0.02 + share * (drawn - 0.02), step),
      });
      say(drawn, 'Writing the press ticket');
      const picture = await renderPreview({
        plan,
        tempFolder: folder,
        view: { kind: 'pressed', proof: null },
        maxPixels: ticketPicturePixels,
        ...(signal === undefined ? {} : { signal }),
      });
      const createdAt = parts.now().toISOString();
      const { recordUrl } = options;
      await writeTicket(ticketFor(prepared, { outPath: ticketPath, picture, recordUrl, createdAt, demo }));
      signal?.throwIfAborted();
      say(0.96, 'Putting it in the shop folder');
      const keep = async (from: string, as: Pick<SheetFile, 'kind' | 'format' | 'fileName'>) => {
        const kept = await parts.files.adopt(from);
        fresh.push(kept.hash);
        return { ...as, contentHash: kept.hash, bytes: kept.bytes };
      };
      const stem = `${prepared.order.kind}-sheet-${sheetId}`;
      const files: SheetFile[] = [
        await keep(sheetPath, {
          kind: 'sheet',
          format: output.format,
          fileName: `${stem}.${extensions[output.format]}`,
        }),
        await keep(ticketPath, { kind: 'ticket', format: 'pdf', fileName: `${stem}-ticket.pdf` }),
      ];
      const record = recordOf(prepared, { files, createdAt, demo });
      const { blank, setup, path: colourPath, kept } = prepared;
      await parts.records.testSheets.put(record, { blank, setup, colourPath }, kept);
      return record;
    });
  } catch (error) {
    await dropUnnamed(parts, fresh).catch(() => undefined);
    throw error;
  }
}

const extensions: Readonly<Record<OutputFormat, string>> = { pdf: 'pdf', png: 'png', tiff: 'tif' };

function recordOf(
  prepared: PreparedTestSheet,
  more: { readonly files: SheetFile[]; readonly createdAt: string; readonly demo: boolean },
): TestSheet {
  const {
    sheetId,
    order,
    output,
    material,
    plan,
    ppi,
    patches,
    patchMm,
    setup,
    blank,
    grey,
    ladder,
    evenness,
  } = prepared;
  return {
    id: sheetId,
    kind: order.kind,
    order,
    output,
    material,
    widthMm: plan.widthMm,
    heightMm: plan.heightMm,
    ppi,
    patches,
    patchMm,
    mirroredBy: setup.mirroredBy,
    setupName: setup.name,
    blankName: blank.name,
    pathName: prepared.path?.name ?? null,
    grey,
    ladder,
    evenness,
    ...more,
  };
}
