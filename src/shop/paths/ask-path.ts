import type { MeasurementTable } from '#craft/cgats';
import { deltaE00, type Triple } from '#craft/colour';
import type { InkModelData, InkPrediction, InverseAnswer } from '#craft/inkmodel';
import { Problem } from '#craft/problem';
import { inPathThread } from './path-threads.js';

/** Colours to ask a model about: device values to predict from, or colours to reach. */
export interface Questions {
  readonly sampleIds: readonly string[];
  readonly rgb: readonly Triple[];
  /** Measured colours of the same patches, or the colours wanted; null: none known. */
  readonly lab: readonly Triple[] | null;
  readonly remarks: readonly string[];
}

export interface PredictedRow extends InkPrediction {
  readonly sampleId: string;
  /** Device values 0..1. */
  readonly rgb: Triple;
  /** What the file says was measured, and how far the prediction lies from it. */
  readonly measuredLab?: Triple;
  readonly deltaE00?: number;
}

export interface Prediction {
  readonly rows: readonly PredictedRow[];
  /** Standard deviation of one reading; a reading scatters about `lab` by this and `sdLab` together. */
  readonly noiseSdLab: Triple;
  /** Against the measured colours, ΔE00; null where none are known. */
  readonly comparison: { readonly mean: number; readonly p95: number; readonly max: number } | null;
}

/** Device values of a table, with its colours if it has them. Errors: measurements.broken without RGB columns. */
export function deviceQuestions(table: MeasurementTable): Questions {
  if (table.device.space !== 'RGB') {
    throw new Problem('measurements.broken', 'The file has no RGB device values.', {
      remedy: 'Name three columns RGB_R, RGB_G and RGB_B.',
    });
  }
  return { ...table, rgb: table.device.rows as unknown as readonly Triple[] };
}

/** Colours of a table, to be reached. Errors: measurements.broken without any. */
export function colourQuestions(table: MeasurementTable): Questions & { readonly lab: readonly Triple[] } {
  if (table.lab === null) {
    throw new Problem('measurements.broken', 'The file has no colours.', {
      remedy: 'Name three columns LAB_L, LAB_A and LAB_B.',
    });
  }
  const { sampleIds, lab } = table;
  // What the file says of device values, or that it has none, does not matter here.
  return { sampleIds, rgb: [], lab, remarks: [] };
}

/** What the model says of device values. Errors: chart.unusable, job.cancelled. */
export async function predictColours(
  data: InkModelData,
  { sampleIds, rgb, lab }: Questions,
  signal?: AbortSignal,
): Promise<Prediction> {
  const { predictions, noiseSdLab } = await inPathThread('predict', { data, rgb }, signal);
  const rows = predictions.map((one, i): PredictedRow => {
    const row = { sampleId: sampleIds[i] ?? String(i + 1), rgb: rgb[i]!, ...one };
    return lab === null ? row : { ...row, measuredLab: lab[i]!, deltaE00: deltaE00(lab[i]!, one.lab) };
  });
  const off = rows.flatMap((row) => row.deltaE00 ?? []).sort((a, b) => a - b);
  const comparison =
    off.length === 0
      ? null
      : {
          mean: off.reduce((sum, v) => sum + v, 0) / off.length,
          p95: off[Math.min(off.length - 1, Math.floor(0.95 * off.length))]!,
          max: off.at(-1)!,
        };
  return { rows, noiseSdLab, comparison };
}

export interface InvertedRow extends InverseAnswer {
  readonly sampleId: string;
  readonly wantedLab: Triple;
  /** The nearest 8-bit codes, 0..255. */
  readonly code8: Triple;
}

/** Device values for colours, as near as the printer gets. Errors: chart.unusable, job.cancelled. */
export async function invertColours(
  data: InkModelData,
  { sampleIds, lab }: { readonly sampleIds: readonly string[]; readonly lab: readonly Triple[] },
  signal?: AbortSignal,
): Promise<InvertedRow[]> {
  const answers = await inPathThread('invert', { data, lab }, signal);
  return answers.map((answer, i) => ({
    sampleId: sampleIds[i] ?? String(i + 1),
    wantedLab: lab[i]!,
    code8: [
      Math.round(255 * answer.rgb[0]),
      Math.round(255 * answer.rgb[1]),
      Math.round(255 * answer.rgb[2]),
    ],
    ...answer,
  }));
}
