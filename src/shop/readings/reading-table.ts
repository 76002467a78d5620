import type { Reading, ReadingPatch } from '#contract';
import { type MeasurementTable, readingKeywords, writeCgats } from '#craft/cgats';
import { patchName } from './patch-name.js';

/** The sound patches as measurements: device RGB 0..1, Lab, and how sure each is. */
export function tableOfPatches(
  patches: readonly ReadingPatch[],
  keywords: ReadonlyMap<string, string> = new Map(),
): MeasurementTable {
  const sound = patches.filter((patch) => patch.sound);
  const sdLab = sound.map((patch) => patch.sdLab);
  return {
    device: { space: 'RGB', rows: sound.map(({ deviceRgb }) => deviceRgb.map((v) => v / 255)) },
    lab: sound.map(({ lab }) => lab),
    xyz: null,
    spectra: null,
    sdLab: sdLab.some((sd) => sd.some((v) => v > 0)) ? sdLab : null,
    sampleIds: sound.map(({ column, row }) => patchName(column, row)),
    keywords,
    remarks: [],
  };
}

type About = Pick<Reading, 'grade' | 'expectedError' | 'sheetId' | 'readerName' | 'subject'>;

export function keywordsOf({ grade, expectedError, sheetId, readerName, subject }: About) {
  const { meanDeltaE00, p95DeltaE00 } = expectedError;
  return readingKeywords({
    grade,
    meanDeltaE00,
    p95DeltaE00,
    sheetId,
    reader: readerName ?? undefined,
    subject,
  });
}

/** As a CGATS text that says its grade. */
export function cgatsOf(patches: readonly ReadingPatch[], about: About, createdAt: string): string {
  return writeCgats(tableOfPatches(patches), {
    originator: 'Dyewright',
    created: createdAt,
    keywords: keywordsOf(about),
  });
}
