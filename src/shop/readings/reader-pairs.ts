import { type MeasurementTable, statedGrade } from '#craft/cgats';
import type { Triple3 } from '#craft/colour';
import type { LinearRgb } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import type { ReaderSample } from '#craft/reader';
import type { KeptReading } from './kept-reading.js';
import { matchRows } from './match-rows.js';
import { patchName } from './patch-name.js';

/** Fewer say nothing of a reader. */
const fewestPairs = 12;

/**
 * What a reader saw of a sheet beside what an instrument measured of the same sheet. Rows that name a patch are paired
 * with that patch as it was seen; rows that give device values only, with all patches of that colour.
 * Errors: chart.unusable, measurements.broken.
 */
export function readerPairs(kept: KeptReading, table: MeasurementTable): ReaderSample[] {
  const { light, patches } = kept;
  if (light === null) {
    throw new Problem(
      'chart.unusable',
      'This reading came from an instrument, not from a scanner or phone.',
      {
        remedy: 'Choose the reading of a scan or photo of the same sheet.',
      },
    );
  }
  const { lab } = table;
  if (lab === null) {
    throw new Problem('measurements.broken', 'The file holds no measured colours.', {
      remedy: 'Export Lab, XYZ or spectra from the instrument’s program.',
    });
  }
  if ((statedGrade(table)?.grade ?? 'A') !== 'A') {
    throw new Problem(
      'chart.unusable',
      'The colours of this file were read by a scanner or phone themselves.',
      {
        remedy: 'Give a file that an instrument measured.',
      },
    );
  }
  const asChart = patches.map((patch) => ({
    ...patch,
    rect: noRect,
    chosen: patch.control ? null : patch.index,
  }));
  const matched = matchRows(table, { patches: asChart });
  const named = new Set(table.sampleIds.map((id) => id.trim().toUpperCase()));
  const byName =
    patches.filter(({ column, row }) => named.has(patchName(column, row))).length > 0.5 * patches.length;
  const colourAt = (rows: readonly number[]): Triple3 =>
    [0, 1, 2].map((k) => rows.reduce((sum, at) => sum + lab[at]![k]!, 0) / rows.length) as Triple3;
  const samples: ReaderSample[] = [];
  if (matched !== null && byName) {
    patches.forEach((patch, i) => {
      const rows = matched.rowsOf[i]!;
      if (!patch.sound || rows.length === 0) return;
      const name = patchName(patch.column, patch.row);
      samples.push({ rgb: light.patches[i]!.seenRgb, lab: colourAt(rows), name });
    });
  } else if (matched !== null) {
    for (const members of likeOnes(patches)) {
      const rows = members.flatMap((i) => matched.rowsOf[i]!);
      const sound = members.filter((i) => patches[i]!.sound);
      if (rows.length === 0 || sound.length === 0) continue;
      const rgb = [0, 1, 2].map(
        (c) => sound.reduce((sum, i) => sum + light.patches[i]!.evenRgb[c]!, 0) / sound.length,
      ) as unknown as LinearRgb;
      const { column, row } = patches[sound[0]!]!;
      // Where the same number of patches was measured and seen, the pair is worth that many.
      const weight = Math.min(rows.length, sound.length);
      samples.push({ rgb, lab: colourAt(rows), weight, name: patchName(column, row) });
    }
  }
  if (samples.length < fewestPairs) {
    throw new Problem(
      'chart.unusable',
      samples.length === 0
        ? 'None of the file’s rows can be told to be a patch of this reading.'
        : `Only ${samples.length} patches were both read and measured.`,
      {
        remedy: `Give the instrument’s file of the same sheet, with its RGB device values or patch names like A1, at least ${fewestPairs} patches.`,
      },
    );
  }
  return samples;
}

const noRect = { xMm: 0, yMm: 0, widthMm: 0, heightMm: 0 };

function likeOnes(patches: KeptReading['patches']): number[][] {
  const likes = new Map<string, number[]>();
  patches.forEach(({ deviceRgb }, i) => {
    const key = deviceRgb.join();
    likes.set(key, [...(likes.get(key) ?? []), i]);
  });
  return [...likes.values()];
}
