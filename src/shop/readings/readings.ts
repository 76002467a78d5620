import { createHash, randomUUID } from 'node:crypto';
import { rename } from 'node:fs/promises';
import sharp from 'sharp';
import type { Job, Reader, Reading, ReadingPatch } from '#contract';
import type { MeasurementTable } from '#craft/cgats';
import { Problem } from '#craft/problem';
import { makeReaderMap, type ReaderSample } from '#craft/reader';
import { parseSheetId } from '#craft/sheet';
import { type ContentFiles, onDisk, type Scratch } from '#shop/files';
import type { Jobs } from '#shop/jobs';
import { measurementsOf } from '#shop/paths';
import type { Readers } from '#shop/readers';
import { dropUnnamed, missing, type Records } from '#shop/store';
import type { TestSheets } from '#shop/test-sheets';
import { bestMap } from './choose-map.js';
import { colourLight } from './convert-light.js';
import { contentOf, keepReading } from './keep-reading.js';
import { openKept } from './kept-reading.js';
import { KnownSheets } from './known-sheets.js';
import { checkedAbout, type ReadAbout } from './read-about.js';
import { readInstrumentFile } from './read-instrument.js';
import { colourFacts, type ReadOptions, readPicture } from './read-picture.js';
import type { ReadResult } from './read-result.js';
import { readerPairs } from './reader-pairs.js';
import { keywordsOf, tableOfPatches } from './reading-table.js';
import { sourceHashOf } from './source-hash.js';

export interface ReadingsParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly scratch: Scratch;
  readonly testSheets: TestSheets;
  readonly readers: Readers;
  readonly jobs: Jobs;
  readonly now: () => Date;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit: number;
  readonly onFault: (error: unknown) => void;
}

/** What a person says of an instrument's file. */
export interface FileAbout {
  readonly sheetId: string;
  readonly fileName: string;
  readonly subject?: unknown;
}

/** Readings of test sheets: taken, kept, told anew. */
export class Readings {
  /** What the record knows of sheets in pictures. */
  readonly sheets: KnownSheets;
  private line: Promise<unknown> = Promise.resolve();

  constructor(private readonly parts: ReadingsParts) {
    this.sheets = new KnownSheets(parts.records, parts.testSheets);
  }

  /**
   * Reads a scan or photo and keeps what was read.
   * Errors: request.invalid, record.missing, scan.*, image.*, chart.unusable, job.cancelled, disk.full.
   */
  async read(
    source: string | Uint8Array,
    about: ReadAbout,
    options: ReadOptions & { readonly demo?: boolean } = {},
  ): Promise<Reading> {
    const result = await this.look(source, about, options);
    options.onProgress?.(0.95, 'Putting it in the shop folder');
    return this.keep(result, await sourceHashOf(source), options.demo);
  }

  /** As `read`, kept nowhere. */
  async look(source: string | Uint8Array, about: ReadAbout, options: ReadOptions = {}): Promise<ReadResult> {
    const { readerId, ...said } = checkedAbout(about);
    const { readers, pixelLimit, onFault } = this.parts;
    const reader = readerId === undefined ? null : await readers.get(readerId);
    const readerMap = reader === null ? null : await readers.mapOf(reader);
    const parts = {
      orderOf: (id: string) => this.sheets.orderOf(id),
      kindOf: (id: string) => this.sheets.kindOf(id),
      pixelLimit,
      onFault,
    };
    return readPicture(source, { ...said, reader, readerMap }, parts, options);
  }

  /**
   * The same as a job; its result is the reading's id. The file is taken over from where it lies in the scratch folder,
   * and gone when the job has ended.
   */
  async start(upload: string, about: ReadAbout): Promise<Job> {
    const { scratch, jobs } = this.parts;
    const source = scratch.file('picture');
    await onDisk('taking the picture in', () => rename(upload, source));
    try {
      // Said at once, not when the job's turn comes.
      const { readerId } = checkedAbout(about);
      if (readerId !== undefined) await this.parts.readers.get(readerId);
      const job = await jobs.start({
        kind: 'read-chart',
        key: `read-chart:${randomUUID()}`,
        work: async (context) => {
          try {
            return (await this.read(source, about, context)).id;
          } finally {
            await scratch.discard(source);
          }
        },
      });
      // A job that is stopped before its turn never comes to its work.
      void jobs
        .finished(job.id)
        .catch(() => undefined)
        .then(() => scratch.discard(source));
      return job;
    } catch (error) {
      await scratch.discard(source);
      throw error;
    }
  }

  /** An instrument's file of a sheet's patches. Errors: record.missing, measurements.broken, scan.wrong-sheet. */
  async importFile(bytes: Uint8Array, about: FileAbout): Promise<Reading> {
    const result = await this.lookAtFile(bytes, about);
    return this.keep(result, createHash('sha256').update(bytes).digest('hex'));
  }

  /** As `importFile`, kept nowhere. */
  async lookAtFile(bytes: Uint8Array, about: FileAbout): Promise<ReadResult> {
    const { subject, fileName } = checkedAbout({ fileName: about.fileName, subject: about.subject });
    if (about.sheetId === '') {
      throw new Problem('request.invalid', 'It is not said which test sheet was measured.', {
        remedy: 'Choose the sheet that the instrument’s file is of.',
        where: 'sheetId',
      });
    }
    const sheet = await this.parts.testSheets.get(about.sheetId);
    const order = await this.sheets.orderOf(sheet.id);
    if (order === null) throw missing('test sheet', about.sheetId);
    return readInstrumentFile(bytes, { fileName, order, kind: sheet.kind, subject });
  }

  /** Newest first. */
  async list(about: { readonly sheetId?: string | undefined } = {}): Promise<Reading[]> {
    const { sheetId } = about;
    return this.parts.records.readings.list(
      sheetId === undefined ? undefined : (parseSheetId(sheetId) ?? sheetId),
    );
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<Reading> {
    const reading = await this.parts.records.readings.get(id);
    if (reading === undefined) throw missing('reading', id);
    return reading;
  }

  /** Paths learnt from it keep their own measurements. Errors: record.missing. */
  async remove(id: string): Promise<void> {
    const reading = await this.get(id);
    await this.inTurn(async () => {
      await this.parts.records.readings.remove(id);
      await dropUnnamed(this.parts, contentOf(reading));
    });
  }

  /** Errors: record.missing, file.missing. */
  async patches(id: string): Promise<ReadingPatch[]> {
    const { patches } = await openKept(this.parts.files, (await this.get(id)).patchesHash);
    return [...patches];
  }

  /** The sound patches as CGATS text. Errors: record.missing, file.missing. */
  async measurements(id: string): Promise<Uint8Array> {
    return this.parts.files.bytesOf((await this.get(id)).measurementsHash);
  }

  /** The picture with what was read drawn over it, JPEG. Errors: record.missing, file.missing (instruments have none). */
  async overlay(id: string, maxPixels?: number): Promise<{ bytes: Uint8Array; contentHash: string }> {
    const { overlay } = await this.get(id);
    if (overlay === null) {
      throw new Problem('file.missing', 'This reading has no picture.', {
        remedy: 'Only readings of scans and photos have one.',
      });
    }
    const bytes = await this.parts.files.bytesOf(overlay.contentHash);
    const { contentHash } = overlay;
    if (maxPixels === undefined || maxPixels >= Math.max(overlay.widthPixels, overlay.heightPixels))
      return { bytes, contentHash };
    const small = await sharp(bytes)
      .resize(maxPixels, maxPixels, { fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 85 })
      .toBuffer();
    return { bytes: new Uint8Array(small), contentHash };
  }

  /** The sound patches: device RGB 0..1, Lab, how sure each is; keywords say the grade. Errors: record.missing, file.missing. */
  async tableOf(id: string): Promise<MeasurementTable> {
    const reading = await this.get(id);
    const { patches } = await openKept(this.parts.files, reading.patchesHash);
    return tableOfPatches(patches, new Map(Object.entries(keywordsOf(reading))));
  }

  /**
   * What the reader saw beside what an instrument measured of the same sheet, for calibrating the reader.
   * Errors: record.missing, chart.unusable, measurements.broken.
   */
  async readerSamples(id: string, reference: Uint8Array): Promise<ReaderSample[]> {
    const reading = await this.get(id);
    const kept = await openKept(this.parts.files, reading.patchesHash);
    return readerPairs(kept, measurementsOf(reference));
  }

  /**
   * Calibrates a reader by a reading made with it and an instrument's file of the same sheet.
   * Errors: record.missing, request.invalid (another reader's reading), chart.unusable, measurements.broken.
   */
  async calibrateReader(readerId: string, readingId: string, reference: Uint8Array): Promise<Reader> {
    const { readers, records } = this.parts;
    const reading = await this.get(readingId);
    const reader = await readers.get(readerId);
    if (reading.readerId !== null && reading.readerId !== reader.id) {
      throw new Problem('request.invalid', `That reading was made with “${reading.readerName}”.`, {
        remedy: `Choose a reading made with “${reader.name}”.`,
        where: 'readingId',
      });
    }
    const samples = await this.readerSamples(readingId, reference);
    const setupName = (await records.testSheets.get(reading.sheetId))?.setupName ?? null;
    return readers.calibrate(readerId, { by: 'same-ink', samples, setupName, remarks: [] });
  }

  /**
   * Tells the colours of a reading anew by a reader as it is calibrated now; null: by the picture's own word.
   * Errors: record.missing, chart.unusable for instruments' readings.
   */
  async convertAgain(id: string, readerId: string | null): Promise<Reading> {
    const { readers, files } = this.parts;
    const before = await this.get(id);
    const kept = await openKept(files, before.patchesHash);
    if (kept.light === null) {
      throw new Problem(
        'chart.unusable',
        'This reading came from an instrument, which says its colours itself.',
        {
          remedy: 'Choose the reading of a scan or photo.',
        },
      );
    }
    const reader = readerId === null ? null : await readers.get(readerId);
    const chosen = bestMap(
      makeReaderMap(kept.light.ownMap),
      reader === null ? null : await readers.mapOf(reader),
    );
    const coloured = colourLight(kept.light, kept.patches, chosen.map);
    const facts = {
      ...before,
      ...colourFacts(coloured, chosen, reader, before.subject, kept.light.remarks),
    };
    const result: ReadResult = { facts, kept: { ...kept, patches: coloured.patches }, overlay: null };
    const { sourceHash, createdAt, demo, overlay } = before;
    return this.inTurn(async () => {
      const after = await keepReading(this.parts, result, { id, sourceHash, createdAt, demo, overlay });
      await dropUnnamed(this.parts, contentOf(before));
      return after;
    });
  }

  private async keep(result: ReadResult, sourceHash: string, demo = false): Promise<Reading> {
    const createdAt = this.parts.now().toISOString();
    return this.inTurn(() =>
      keepReading(this.parts, result, { id: randomUUID(), sourceHash, createdAt, demo }),
    );
  }

  /**
   * One keeping or dropping after another: two readings of one scan share their content, and one may go while the other
   * comes, its files there but not named yet.
   */
  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = this.line.then(work);
    this.line = done.catch(() => undefined);
    return done;
  }
}
