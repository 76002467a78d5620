import { idSchema, type Reader, readerInputSchema } from '#contract';
import { gridTargetOf, makeReaderMap, type ReaderMap, type ReaderSample } from '#craft/reader';
import type { Point } from '#craft/reading';
import type { ContentFiles } from '#shop/files';
import { measurementsOf } from '#shop/paths';
import { missing, type Records } from '#shop/store';
import { checked } from '#shop/validate';
import { openChartPicture } from '#shop/vision';
import { inReaderThread } from './learn-threads.js';
import { readMapFile, writeMapFile } from './map-file.js';

export interface ReaderCalibration {
  readonly by: 'same-ink' | 'target';
  readonly samples: readonly ReaderSample[];
  /** The print setup whose ink the pairs show; null: none of this shop's. */
  readonly setupName: string | null;
  readonly remarks: readonly string[];
}

export interface TargetPicture {
  /** A path, or the file's bytes. */
  readonly source: string | Uint8Array;
  /** The outer corners of the field of patches, pixels of the upright picture, going round. */
  readonly corners: readonly Point[];
  /** The CGATS file of the target's patches. */
  readonly reference: Uint8Array;
}

export interface ReadersParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly now: () => Date;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit: number;
}

/** Scanners and phones, and what is known of how they see. */
export class Readers {
  constructor(private readonly parts: ReadersParts) {}

  list(): Promise<Reader[]> {
    return this.parts.records.readers.list();
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<Reader> {
    const reader = await this.parts.records.readers.get(id);
    if (reader === undefined) throw missing('scanner or phone', id);
    return reader;
  }

  /**
   * Adds or changes one; its calibration stays, unless it became another kind of thing.
   * Errors: request.invalid.
   */
  async put(id: string, input: unknown): Promise<Reader> {
    checked(idSchema, id, 'The scanner or phone cannot be kept under this id');
    const given = checked(readerInputSchema, input, 'The scanner or phone cannot be kept');
    const { records, now } = this.parts;
    let dropped: string | null = null;
    const kept = await records.together(async (inside) => {
      const there = await inside.readers.get(id);
      const calibration = there?.kind === given.kind ? there.calibration : null;
      if (there?.calibration && calibration === null) dropped = there.calibration.mapHash;
      const reader: Reader = { ...given, id, calibration };
      await inside.readers.put(reader, now().toISOString());
      return reader;
    });
    if (dropped !== null) await this.dropMap(dropped);
    return kept;
  }

  /** Readings made with it stay as they are. Errors: record.missing. */
  async remove(id: string): Promise<void> {
    const reader = await this.get(id);
    if (!(await this.parts.records.readers.remove(id))) throw missing('scanner or phone', id);
    if (reader.calibration) await this.dropMap(reader.calibration.mapHash);
  }

  /** Null: not calibrated. Errors: file.missing, chart.unusable for a kept map that is damaged. */
  async mapOf({ calibration }: Reader): Promise<ReaderMap | null> {
    if (calibration === null) return null;
    return makeReaderMap(readMapFile(await this.parts.files.bytesOf(calibration.mapHash)));
  }

  /**
   * Calibrates by pairs: what it saw, beside what is known.
   * Errors: record.missing, chart.unusable (too few pairs, or pairs that do not belong together), disk.full.
   */
  async calibrate(id: string, calibration: ReaderCalibration): Promise<Reader> {
    const { by, samples, setupName, remarks } = calibration;
    const { kind } = await this.get(id);
    const data = await inReaderThread('learn', { samples, by });
    const { records, files, now } = this.parts;
    const { hash } = await files.keep(writeMapFile(data));
    let before: string | null = null;
    try {
      const kept = await records.together(async (inside) => {
        const there = await inside.readers.get(id);
        if (there === undefined) throw missing('scanner or phone', id);
        before = there.calibration?.mapHash ?? null;
        const reader: Reader = {
          ...there,
          calibration: {
            by,
            samples: data.how.kind === 'learnt' ? data.how.rgb.length : 0,
            expectedError: data.expectedError,
            mapHash: hash,
            setupName,
            remarks: [...lightRemarks[kind], ...remarks, ...data.remarks],
            createdAt: now().toISOString(),
          },
        };
        await inside.readers.put(reader, reader.calibration!.createdAt);
        return reader;
      });
      if (before !== null) await this.dropMap(before);
      return kept;
    } catch (error) {
      await this.dropMap(hash).catch(() => undefined);
      throw error;
    }
  }

  /**
   * Calibrates by a picture of a reference target and the file that came with it.
   * Errors: record.missing, measurements.broken, image.*, scan.unclear, chart.unusable, disk.full.
   */
  async calibrateFromTarget(id: string, given: TargetPicture): Promise<Reader> {
    await this.get(id);
    const target = gridTargetOf(measurementsOf(given.reference));
    const { picture, scale, remarks } = await openChartPicture(given.source, this.parts.pixelLimit);
    const corners = given.corners.map(({ x, y }) => ({ x: x * scale, y: y * scale }));
    const read = await inReaderThread('readTarget', { picture, corners, target });
    return this.calibrate(id, {
      by: 'target',
      samples: read.samples,
      setupName: null,
      remarks: [...read.remarks, ...remarks],
    });
  }

  /** A map that no reader names any more. */
  private async dropMap(hash: string): Promise<void> {
    const { records, files } = this.parts;
    const used = (await records.readers.list()).some(({ calibration }) => calibration?.mapHash === hash);
    if (!used) await files.remove(hash);
  }
}

const lightRemarks = {
  scanner: [],
  phone: [
    'A phone is calibrated for the light it saw: photograph in the same light, from the same height, with the same settings.',
  ],
} as const;
