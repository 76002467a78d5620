import type { MeasurementTable } from '#craft/cgats';
import type { Triple, Triple3 } from '#craft/colour';
import { Problem } from '#craft/problem';

export interface Patch {
  /** Row of the table. */
  readonly index: number;
  readonly sampleId: string;
  readonly rgb: Triple;
  readonly lab: Triple;
  readonly noiseMultiple: number;
}

/** The most patches a model is made from: its matrices grow as the square. */
export const mostPatches = 2500;

/**
 * The table's patches, looked over.
 * @throws Problem `chart.unusable`
 */
export function patchesOf(table: MeasurementTable, fewest: number): Patch[] {
  if (table.device.space !== 'RGB') {
    refuse(
      'The measurements have no RGB device values.',
      'Use the file that says which RGB each patch was printed with.',
    );
  }
  const { lab } = table;
  if (lab === null) {
    refuse('The measurements have no colour values.', 'Export them with Lab, XYZ or spectral columns.');
  }
  const rows = table.device.rows;
  if (rows.length !== lab.length) {
    refuse('The measurements have not one colour for each device value.', 'Export the chart again.');
  }
  if (rows.length < fewest) {
    refuse(`${rows.length} patches are too few.`, `Print and measure at least ${fewest} patches.`);
  }
  if (rows.length > mostPatches) {
    refuse(`${rows.length} patches are more than can be used.`, `Keep to ${mostPatches} patches or fewer.`);
  }
  rows.forEach((rgb, i) => {
    const sound = rgb.length === 3 && rgb.every((v) => v >= 0 && v <= 1);
    const colour = lab[i]!;
    const seen =
      colour.every(Number.isFinite) &&
      colour[0] > -5 &&
      colour[0] < 130 &&
      Math.hypot(colour[1], colour[2]) < 250;
    if (!sound || !seen) {
      refuse(
        `Patch ${table.sampleIds[i] ?? i + 1} has a value that cannot be.`,
        'Look at this row of the file.',
      );
    }
  });
  const spans = [0, 1, 2].map(
    (j) => Math.max(...rows.map((r) => r[j]!)) - Math.min(...rows.map((r) => r[j]!)),
  );
  if (spans.some((span) => span < 0.5)) {
    refuse(
      'The patches do not cover the range of all three channels.',
      'Print a chart with patches from all over the RGB cube.',
    );
  }
  const multiples = noiseMultiples(table.sdLab);
  return rows.map((rgb, i) => ({
    index: i,
    sampleId: table.sampleIds[i] ?? String(i + 1),
    rgb: rgb as unknown as Triple3,
    lab: lab[i]!,
    noiseMultiple: multiples?.[i] ?? 1,
  }));
}

/** Variances beside the median one; kept within bounds, since a spread of a few pixels is itself uncertain. */
function noiseMultiples(sdLab: readonly Triple[] | null): number[] | null {
  if (sdLab === null) return null;
  const variances = sdLab.map((sd) => (sd[0] ** 2 + sd[1] ** 2 + sd[2] ** 2) / 3);
  const sorted = variances.filter((v) => Number.isFinite(v) && v > 0).sort((a, b) => a - b);
  const median = sorted[sorted.length >> 1];
  if (median === undefined) return null;
  return variances.map((v) => (Number.isFinite(v) ? Math.min(100, Math.max(0.2, v / median)) : 1));
}

function refuse(message: string, remedy: string): never {
  throw new Problem('chart.unusable', message, { remedy });
}
