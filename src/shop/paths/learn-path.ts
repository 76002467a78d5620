import type { PathMeasurement } from '#contract';
import type { MeasurementTable } from '#craft/cgats';
import { type InkModelData, mostBases, type SheetShift } from '#craft/inkmodel';
import { Problem } from '#craft/problem';
import { joinErrors, poolErrors, worstGrade } from '#craft/verification';
import type { MeasuredSource } from './measured-source.js';
import type { PathSource } from './path-source.js';
import { inPathThread } from './path-threads.js';

export interface PathWorkOptions {
  readonly signal?: AbortSignal;
  readonly onProgress?: (share: number, step: string) => void;
}

export interface LearnPathOptions extends PathWorkOptions {
  readonly name: string;
  readonly iccVersion: 2 | 4;
  readonly now: Date;
  /** The path adapted from. */
  readonly base?: { readonly name: string; readonly data: InkModelData } | undefined;
}

/** A colour path worked out and kept nowhere yet. */
export interface LearntPath {
  readonly data: InkModelData;
  readonly icc: Uint8Array;
  readonly table: MeasurementTable;
  readonly measurement: Omit<PathMeasurement, 'modelHash' | 'measurementsHash'>;
}

/**
 * Shares of the colours' variance that a model leaves open (on virtual printers, 12 to 120 patches): charts as they
 * should be 0.0002 to 0.01, rows counted differently 0.03 to 0.16, rows moved by one or shuffled 0.25 to 0.95.
 */
const mostUnexplained = 0.06;
const muchUnexplained = 0.02;
/** From this share of patches on, those that do not fit are hardly accidents. */
const manyOutliers = 0.1;
const enoughRepeats = 8;

/**
 * From measured patches, of one sheet or several, to a model and its profile. The grade is that of the worst reading; the
 * model's doubt and the readings' own error are joined as `joinErrors` says.
 * Errors: chart.unusable, job.cancelled.
 */
export async function learnPath(
  sources: readonly MeasuredSource[],
  options: LearnPathOptions,
): Promise<LearntPath> {
  const { base, signal, onProgress = () => undefined } = options;
  if (base !== undefined && basesOf(base.data) >= mostBases) {
    throw new Problem('chart.unusable', `“${base.name}” has itself been adapted ${mostBases} times over.`, {
      remedy: 'Adapt an earlier path of that line, or build a new one from a full chart.',
    });
  }
  onProgress(0, 'Learning what the printer does');
  const tables = sources.map((source) => source.table);
  const learnt = await inPathThread('learn', { tables, base: base?.data ?? null }, signal);
  const { data, noiseSdLab, unexplained, table, shifts } = learnt;
  assertExplained(unexplained);
  onProgress(0.4, 'Working the way back out');
  const made = await inPathThread(
    'profile',
    {
      source: inkSource(data),
      version: options.iccVersion,
      description: options.name,
      createdAt: utcMoment(options.now),
    },
    signal,
  );
  const repeats = data.rgb.length - new Set(data.rgb.map((rgb) => rgb.join())).size;
  const readingError = poolErrors(
    sources.map((source) => ({ patches: source.table.device.rows.length, error: source.error })),
  );
  const doubt = { meanDeltaE00: made.expected.mean, p95DeltaE00: made.expected.p95 };
  return {
    data,
    icc: made.icc,
    table,
    measurement: {
      grade: worstGrade(sources.map((source) => source.grade)),
      patches: data.rgb.length,
      repeats,
      outliers: data.outliers.map(({ sampleId, measuredLab, expectedLab, deltaE00 }) => ({
        sampleId,
        measuredLab: [...measuredLab],
        expectedLab: [...expectedLab],
        deltaE00,
      })),
      noiseSdLab: [...noiseSdLab],
      expectedError: joinErrors(doubt, readingError),
      ...(readingError === null ? {} : { readingError }),
      gamut: {
        whiteLab: [...made.gamut.whiteLab],
        blackLab: [...made.gamut.blackLab],
        volumeLab: made.gamut.volumeLab,
        srgbShare: made.gamut.srgbShare,
      },
      adaptedFrom: base?.name ?? null,
      remarks: [...table.remarks, ...shifts.map(shiftSentence), ...doubts(data, repeats, unexplained)],
      readingIds: sources.flatMap((source) => source.readingId ?? []),
    },
  };
}

const shiftSentence = ({ table, meanDeltaE00 }: SheetShift): string =>
  `Reading ${table + 1} came out ${meanDeltaE00.toFixed(1)} ΔE00 from the largest one as a whole; that was taken out.`;

/** For work that nobody asks for again. */
export const inkSource = (data: InkModelData): PathSource => ({ kind: 'ink', key: '', data });

/** The same model as another profile. */
export async function profileOf(
  source: PathSource,
  options: PathWorkOptions & { readonly name: string; readonly iccVersion: 2 | 4; readonly now: Date },
): Promise<Uint8Array> {
  options.onProgress?.(0, 'Working the way back out');
  const task = {
    source,
    version: options.iccVersion,
    description: options.name,
    createdAt: utcMoment(options.now),
  };
  return (await inPathThread('profile', task, options.signal)).icc;
}

function assertExplained(unexplained: number): void {
  if (unexplained <= mostUnexplained) return;
  throw new Problem('chart.unusable', 'The measured colours do not follow the device values.', {
    remedy:
      'Check that the file belongs to this chart, that its rows were measured in order, and that all device values are counted alike.',
  });
}

function doubts(data: InkModelData, repeats: number, unexplained: number): string[] {
  const out: string[] = [];
  if (unexplained > muchUnexplained) {
    out.push('The measured colours follow the device values only roughly: check the file and the chart.');
  }
  const all = data.rgb.length + data.outliers.length;
  if (data.outliers.length > manyOutliers * all) {
    out.push(`${data.outliers.length} of ${all} patches do not fit the others: measure the chart again.`);
  }
  if (repeats < enoughRepeats) {
    out.push(
      `Too few patches are repeats of others (${repeats}) to tell reading noise from the printer's own unevenness.`,
    );
  }
  return out;
}

const basesOf = (data: InkModelData): number => (data.base === null ? 0 : 1 + basesOf(data.base));

export function utcMoment(date: Date) {
  return {
    year: date.getUTCFullYear(),
    month: date.getUTCMonth() + 1,
    day: date.getUTCDate(),
    hour: date.getUTCHours(),
    minute: date.getUTCMinutes(),
    second: date.getUTCSeconds(),
  };
}
