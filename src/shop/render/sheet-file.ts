import { Problem } from '#craft/problem';
import { defaultWorkers } from './bands/pool.js';
import { toPixelMarks } from './geometry/mark-pixels.js';
import { toPixelSheet } from './geometry/pixel-sheet.js';
import { withArtwork } from './marks-only.js';
import type { SheetFileRequest, SheetFileResult } from './types.js';
import { writeImage } from './write-image.js';
import { pdfBoxes } from './writers/pdf-boxes.js';
import { PdfWriter } from './writers/pdf-writer.js';
import { PngWriter } from './writers/png-writer.js';
import type { SheetImage } from './writers/sheet-writer.js';
import { TiffWriter } from './writers/tiff-writer.js';

/**
 * Make a sheet's file: resample once, then bands on worker threads, written in order. Either the whole file
 * stands at `outPath` afterwards or nothing does. A plan without pieces is drawn from its marks alone.
 * Problems: `job.cancelled`, `disk.full`, `disk.failed`, `image.*`, `output.unsupported`, `sheet.impossible`.
 */
export async function makeSheetFile(request: SheetFileRequest): Promise<SheetFileResult> {
  const { plan, output, ppi } = request;
  const sheet = toPixelSheet(plan, ppi);
  const bits = output.format === 'pdf' ? 8 : output.bitsPerSample;
  const image: SheetImage = {
    width: sheet.width,
    height: sheet.height,
    ppi,
    bits,
    iccBytes: output.colourTag === 'tagged' ? profileToEmbed(request) : null,
    title: `Sheet ${plan.sheetId}`,
  };
  return writeImage(
    {
      ...withArtwork(request),
      sheet,
      marks: () => toPixelMarks(plan, ppi),
      options: { mirror: plan.mirrorOnWriting, outBits: bits, workers: request.workers ?? defaultWorkers() },
    },
    (file) => {
      if (output.format === 'pdf') return new PdfWriter(file, image, pdfBoxes(plan));
      return output.format === 'png' ? new PngWriter(file, image) : new TiffWriter(file, image);
    },
  );
}

function profileToEmbed({ iccBytes }: SheetFileRequest): Uint8Array {
  if (iccBytes !== undefined) return iccBytes;
  throw new Problem('output.unsupported', 'There is no profile to put into the file.', {
    remedy: 'Choose plain device colour, or give the print setup a colour path.',
  });
}
