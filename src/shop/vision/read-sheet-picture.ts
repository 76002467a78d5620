import { Problem } from '#craft/problem';
import type { ReadSubject, SheetReading } from '#craft/reading';
import { readInThread } from './pool.js';
import { severalSheets } from './several-sheets.js';

export interface ReadPictureOptions {
  /** The printed paper, or the piece on which the marks were pressed. */
  readonly subject: ReadSubject;
  /** Pixels per inch of the scan when the person knows it; stands above what the file says. */
  readonly scanPpi?: number | undefined;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit?: number | undefined;
  readonly signal?: AbortSignal | undefined;
}

const defaultPixelLimit = 300_000_000;

/**
 * What a scan or photo of a printed sheet tells: which sheet, whether mirrored once, its printed size, the colours
 * of the route strip. `ReadBack` of the contract without `sheetKnown`.
 *
 * @param source a path, or the file's bytes.
 * @throws Problem `scan.no-marks` (none, too few, or those of several sheets), `image.*`, `file.missing`,
 *   `job.cancelled`.
 */
export async function readSheetPicture(
  source: string | Uint8Array,
  { subject, scanPpi, pixelLimit = defaultPixelLimit, signal }: ReadPictureOptions,
): Promise<SheetReading> {
  stopIfAborted(signal);
  try {
    const answer = await readInThread({ source, pixelLimit, subject, scanPpi }, signal);
    if (answer.reading) return answer.reading;
    throw answer.why === 'several' ? severalSheets(answer.sheetIds) : noMarks(answer.why);
  } catch (error) {
    stopIfAborted(signal);
    throw error;
  }
}

function noMarks(why: 'nothing' | 'too-little'): Problem {
  if (why === 'too-little') {
    return new Problem(
      'scan.no-marks',
      'Too few of the sheet’s marks could be read to be sure of anything.',
      {
        remedy:
          'Scan the whole sheet flat at 300 ppi, or photograph it again: all four corners in view, sharp, no glare.',
      },
    );
  }
  return new Problem('scan.no-marks', 'No sheet marks were found in the picture.', {
    remedy:
      'Show the whole printed side with its corner marks and the square code: scan at 300 ppi, or photograph it straight on in even light.',
  });
}

function stopIfAborted(signal: AbortSignal | undefined): void {
  if (!signal?.aborted) return;
  throw new Problem('job.cancelled', 'The reading was stopped.', { remedy: 'Start it again when you like.' });
}
