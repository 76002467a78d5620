import { Problem } from '#craft/problem';
import { defaultWorkers } from './bands/pool.js';
import { bandsInOrder } from './bands/run-bands.js';
import { throwIfCancelled } from './cancel.js';
import { asDiskProblem } from './disk-problem.js';
import { toPixelMarks } from './geometry/mark-pixels.js';
import { toPixelSheet } from './geometry/pixel-sheet.js';
import { prepareJob } from './prepare-job.js';
import { progressSteps } from './progress.js';
import { resampleArtwork } from './resample/resample.js';
import type { SheetFileRequest, SheetFileResult } from './types.js';
import { OutFile } from './writers/out-file.js';
import { pdfBoxes } from './writers/pdf-boxes.js';
import { PdfWriter } from './writers/pdf-writer.js';
import { PngWriter } from './writers/png-writer.js';
import type { SheetImage, SheetWriter } from './writers/sheet-writer.js';
import { TiffWriter } from './writers/tiff-writer.js';

/**
 * Make a sheet's file: resample once, then bands on worker threads, written in order. Either the whole file
 * stands at `outPath` afterwards or nothing does.
 * Problems: `job.cancelled`, `disk.full`, `disk.failed`, `image.*`, `output.unsupported`, `sheet.impossible`.
 */
export async function makeSheetFile(request: SheetFileRequest): Promise<SheetFileResult> {
  const { plan, output, signal } = request;
  const sheet = toPixelSheet(plan, request.ppi);
  const bits = output.format === 'pdf' ? 8 : output.bitsPerSample;
  const image: SheetImage = {
    width: sheet.width,
    height: sheet.height,
    ppi: request.ppi,
    bits,
    iccBytes: output.colourTag === 'tagged' ? profileToEmbed(request) : null,
    title: `Sheet ${plan.sheetId}`,
  };
  const progress = progressSteps(request.onProgress, { resampling: 0.35, writing: 0.65 });
  throwIfCancelled(signal);
  const file = await OutFile.create(request.outPath);
  try {
    const writer = writerFor(output.format, file, image, request);
    const marks = await toPixelMarks(plan, request.ppi);
    progress('resampling', 0);
    const artwork = await resampleArtwork(request, sheet.pieces, {
      onProgress: (fraction) => progress('resampling', fraction),
    });
    try {
      const job = await prepareJob(request, sheet, marks, artwork, {
        mirror: plan.mirrorOnWriting,
        outBits: bits,
        encoding: writer.encoding,
        workers: Math.max(1, request.workers ?? defaultWorkers()),
      });
      await writer.begin();
      for await (const band of bandsInOrder(job, writer.bands, signal)) {
        await writer.write(band);
        progress('writing', (band.top + band.rows) / sheet.height);
      }
      await writer.end();
      throwIfCancelled(signal);
      const bytes = await file.commit();
      return { widthPixels: sheet.width, heightPixels: sheet.height, bytes };
    } finally {
      await artwork.remove();
    }
  } catch (error) {
    await file.discard();
    throw asDiskProblem(error) ?? error;
  }
}

function profileToEmbed({ iccBytes }: SheetFileRequest): Uint8Array {
  if (iccBytes !== undefined) return iccBytes;
  throw new Problem('output.unsupported', 'There is no profile to put into the file.', {
    remedy: 'Choose plain device colour, or give the print setup a colour path.',
  });
}

function writerFor(
  format: 'pdf' | 'png' | 'tiff',
  file: OutFile,
  image: SheetImage,
  request: SheetFileRequest,
): SheetWriter {
  if (format === 'pdf') return new PdfWriter(file, image, pdfBoxes(request.plan));
  return format === 'png' ? new PngWriter(file, image) : new TiffWriter(file, image);
}
