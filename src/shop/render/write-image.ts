import { bandsInOrder } from './bands/run-bands.js';
import { throwIfCancelled } from './cancel.js';
import { asDiskProblem } from './disk-problem.js';
import type { PixelMarks } from './geometry/mark-pixels.js';
import type { PixelSheet } from './geometry/pixel-sheet.js';
import { type JobOptions, prepareJob } from './prepare-job.js';
import { progressSteps } from './progress.js';
import { resampleArtwork } from './resample/resample.js';
import type { RenderProgress, RenderSource, SheetFileResult } from './types.js';
import { OutFile } from './writers/out-file.js';
import type { SheetWriter } from './writers/sheet-writer.js';

export interface WriteImageRequest extends RenderSource {
  readonly sheet: PixelSheet;
  readonly marks: () => Promise<PixelMarks>;
  readonly outPath: string;
  readonly options: Omit<JobOptions, 'encoding' | 'proof'>;
  readonly onProgress?: ((progress: RenderProgress) => void) | undefined;
}

/** Resample, make the bands, write them: the whole file stands at `outPath` afterwards, or nothing does. */
export async function writeImage(
  request: WriteImageRequest,
  writerFor: (file: OutFile) => SheetWriter,
): Promise<SheetFileResult> {
  const { sheet, signal, options } = request;
  const hasArtwork = sheet.pieces.length > 0;
  const progress = progressSteps(
    request.onProgress,
    hasArtwork ? { resampling: 0.35, writing: 0.65 } : { resampling: 0, writing: 1 },
  );
  throwIfCancelled(signal);
  const file = await OutFile.create(request.outPath);
  try {
    const writer = writerFor(file);
    const marks = await request.marks();
    progress(hasArtwork ? 'resampling' : 'writing', 0);
    const artwork = await resampleArtwork(request, sheet.pieces, {
      onProgress: (fraction) => progress('resampling', fraction),
    });
    try {
      const job = await prepareJob(request, sheet, marks, artwork, { ...options, encoding: writer.encoding });
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
