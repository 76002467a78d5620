import { randomUUID } from 'node:crypto';
import type { ChartReading } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';
import type { ChartLayout, ColourSheetOrder } from '#craft/testsheet';
import type { ChartDone } from './chart-worker.js';
import { readChartInThread } from './pool.js';
import type { ChartAnswer } from './read-chart-pixels.js';
import { severalSheets } from './several-sheets.js';

export interface ReadChartOptions {
  /** What the person says it is; a picture of the other is refused. */
  readonly subject?: 'paper' | 'piece' | undefined;
  /** The sheet the person means; a picture of another is refused. */
  readonly expectedSheetId?: string | undefined;
  /** What the shop's records say a sheet was made from, for sheets that do not say it themselves. */
  readonly orderOf?:
    | ((sheetId: string) => ColourSheetOrder | null | Promise<ColourSheetOrder | null>)
    | undefined;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit?: number | undefined;
  readonly signal?: AbortSignal | undefined;
}

export interface ReadChart {
  readonly reading: ChartReading;
  /** What was looked for where, for drawing over the picture. */
  readonly layout: ChartLayout;
  readonly reader: {
    readonly bits: 8 | 16;
    readonly curve: 'profile' | 'srgb';
    /** The picture's own profile. */
    readonly icc: Uint8Array | null;
  };
}

export const defaultPixelLimit = 300_000_000;

/**
 * Read a colour test sheet from a scan or photo, in a thread of its own.
 *
 * @param source a path, or the file's bytes.
 * @throws Problem `scan.no-marks`, `scan.wrong-sheet`, `scan.unclear`, `image.*`, `file.missing`, `job.cancelled`.
 */
export async function readChartPicture(
  source: string | Uint8Array,
  options: ReadChartOptions = {},
): Promise<ReadChart> {
  const { subject, expectedSheetId, orderOf, pixelLimit = defaultPixelLimit, signal } = options;
  stopIfAborted(signal);
  try {
    const name = randomUUID();
    const run = (order: ColourSheetOrder | null): Promise<ChartDone> =>
      readChartInThread({ name, source, pixelLimit, order }, signal);
    const expected = expectedSheetId && orderOf ? await orderOf(expectedSheetId) : null;
    let { answer, opened } = await run(expected);
    if (answer.kind === 'unknown-sheet' && orderOf) {
      const order = await orderOf(answer.sheetId);
      if (order) ({ answer, opened } = await run(order));
    }
    if (answer.kind !== 'read') throw refusal(answer, opened.isJpeg);
    const { reading, layout } = answer;
    if (expectedSheetId && reading.sheetId !== expectedSheetId) throw otherSheet(reading.sheetId);
    if (subject && reading.surface !== subject) throw otherSurface(subject);
    const remarks = [
      ...reading.remarks,
      ...opened.remarks,
      ...(opened.fileFlipped
        ? ['The picture file says that it is stored mirrored and was turned over before reading.']
        : []),
    ];
    const { bits, curve, icc } = opened;
    return { reading: { ...reading, remarks }, layout, reader: { bits, curve, icc } };
  } catch (error) {
    stopIfAborted(signal);
    throw error;
  }
}

function refusal(answer: Exclude<ChartAnswer, { kind: 'read' }>, isJpeg: boolean): Problem {
  if (answer.kind === 'refused') {
    const { code, message, where } = answer;
    const remedy =
      isJpeg && code === 'scan.unclear'
        ? `${answer.remedy} The picture is a JPEG, and strong compression alone can do this: save it as PNG or TIFF.`
        : answer.remedy;
    return new Problem(code, message, where === undefined ? { remedy } : { remedy, where });
  }
  if (answer.kind === 'several-sheets') return severalSheets(answer.sheetIds);
  if (answer.kind === 'other-sheet') return otherSheet(answer.sheetId);
  if (answer.kind === 'unknown-sheet') {
    return new Problem(
      'scan.wrong-sheet',
      `Sheet ${spokenSheetId(answer.sheetId)} is not a colour test sheet that this shop knows.`,
      { remedy: 'Show the colour test sheet, or read it in the shop where it was made.' },
    );
  }
  const { message, remedy } = noSheet[answer.why];
  return new Problem('scan.no-marks', message, { remedy });
}

const noSheet = {
  'too-little': {
    message: 'Too few of the sheet’s marks could be read to be sure where its patches are.',
    remedy: 'Scan the whole sheet flat at 300 ppi, all four corner marks in the picture, without glare.',
  },
  'no-code': {
    message:
      'The square code beside the corner mark could not be read, so it is not known which sheet this is.',
    remedy: 'Scan the whole sheet at 300 ppi, or say which colour test sheet it is.',
  },
  nothing: {
    message: 'No colour test sheet was found in the picture.',
    remedy:
      'Show the whole printed side with its corner marks and the square code: scan at 300 ppi, or photograph it straight on in even light.',
  },
} as const;

const otherSheet = (sheetId: string): Problem =>
  new Problem('scan.wrong-sheet', `This is sheet ${spokenSheetId(sheetId)}, not the one asked for.`, {
    remedy:
      'Scan the sheet that was asked for, or give this scan without naming a sheet: it says itself which it is.',
  });

const otherSurface = (wanted: 'paper' | 'piece'): Problem =>
  wanted === 'piece'
    ? new Problem(
        'scan.wrong-sheet',
        'This is the printed paper, not the pressed piece: its marks read backwards.',
        {
          remedy:
            'Press the sheet and scan the piece. If it is the piece, the sheet was mirrored the wrong number of times: read it back first.',
        },
      )
    : new Problem(
        'scan.wrong-sheet',
        'This is the pressed piece, not the printed paper: its marks read the right way.',
        {
          remedy:
            'Scan the paper. If it is the paper, the sheet was mirrored the wrong number of times: read it back before pressing.',
        },
      );

function stopIfAborted(signal: AbortSignal | undefined): void {
  if (!signal?.aborted) return;
  throw new Problem('job.cancelled', 'The reading was stopped.', { remedy: 'Start it again when you like.' });
}
