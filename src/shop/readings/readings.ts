import { createHash, randomUUID } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { rename } from 'node:fs/promises';
import sharp from 'sharp';
import { z } from 'zod';
import {
  type Job,
  type Reader,
  type Reading,
  type ReadingPatch,
  readBackSubjectSchema,
  type TestSheetKind,
} from '#contract';
import type { MeasurementTable } from '#craft/cgats';
import { Problem } from '#craft/problem';
import { makeReaderMap, type ReaderSample } from '#craft/reader';
import { parseSheetId, spokenSheetId } from '#craft/sheet';
import type { ColourSheetOrder } from '#craft/testsheet';
import { displayFileName } from '#shop/artwork';
import { type ContentFiles, onDisk, type Scratch } from '#shop/files';
import type { Jobs } from '#shop/jobs';
import { measurementsOf } from '#shop/paths';
import type { Readers } from '#shop/readers';
import { dropUnnamed, missing, type Records } from '#shop/store';
import type { TestSheets } from '#shop/test-sheets';
import { checked } from '#shop/validate';
import { bestMap, type CardGiven } from './choose-map.js';
import { colourLight } from './convert-light.js';
import { contentOf, keepReading } from './keep-reading.js';
import { openKept } from './kept-reading.js';
import { readInstrumentFile } from './read-instrument.js';
import { colourFacts, type ReadOptions, readPicture } from './read-picture.js';
import type { ReadResult } from './read-result.js';
import { readerPairs } from './reader-pairs.js';
import { keywordsOf, tableOfPatches } from './reading-table.js';

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

/** What a person says of a picture; all of it may be left out. */
export interface ReadAbout {
  readonly fileName: string;
  readonly subject?: unknown;
  readonly sheetId?: unknown;
  readonly readerId?: unknown;
  readonly from?: unknown;
  readonly card?: { readonly corners: unknown; readonly values: Uint8Array } | undefined;
}

/** What a person says of an instrument's file. */
export interface FileAbout {
  readonly sheetId: string;
  readonly fileName: string;
  readonly subject?: unknown;
}

const aboutSchema = z.object({
  subject: readBackSubjectSchema.optional(),
  sheetId: z.string().max(40).optional(),
  readerId: z.string().max(64).optional(),
  from: z.enum(['scan', 'photo']).optional(),
});
const cornersSchema = z.array(z.tuple([z.number(), z.number()])).length(4);

/** Readings of test sheets: taken, kept, told anew. */
export class Readings {
  private line: Promise<unknown> = Promise.resolve();

  constructor(private readonly parts: ReadingsParts) {}

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
    return this.keep(result, await hashOf(source), options.demo);
  }

  /** As `read`, kept nowhere. */
  async look(source: string | Uint8Array, about: ReadAbout, options: ReadOptions = {}): Promise<ReadResult> {
    const { subject, sheetId, readerId, from } = checked(aboutSchema, about, 'The reading cannot be made');
    const { readers, pixelLimit, onFault } = this.parts;
    const reader = readerId === undefined || readerId === '' ? null : await readers.get(readerId);
    const named = sheetId === undefined || sheetId === '' ? undefined : sheetIdOf(sheetId);
    const picture = {
      fileName: shownName(about.fileName),
      subject,
      sheetId: named,
      reader,
      readerMap: reader === null ? null : await readers.mapOf(reader),
      from,
      card: about.card === undefined ? undefined : cardOf(about.card),
    };
    const parts = {
      orderOf: (id: string) => this.orderFor(id),
      kindOf: (id: string) => this.kindOf(id),
      pixelLimit,
      onFault,
    };
    return readPicture(source, picture, parts, options);
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
      const { readerId, sheetId } = checked(aboutSchema, about, 'The reading cannot be made');
      if (readerId) await this.parts.readers.get(readerId);
      if (sheetId) sheetIdOf(sheetId);
      if (about.card !== undefined) cardOf(about.card);
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
    const { subject } = checked(aboutSchema, { subject: about.subject }, 'The file cannot be taken in');
    const sheet = await this.parts.testSheets.get(about.sheetId);
    const order = await this.orderFor(sheet.id);
    if (order === null) throw missing('test sheet', about.sheetId);
    const fileName = shownName(about.fileName);
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

  private async kindOf(sheetId: string): Promise<TestSheetKind | null> {
    return (await this.parts.records.testSheets.get(sheetId))?.kind ?? null;
  }

  /** Errors: scan.wrong-sheet for sheets that are for eyes only. */
  private async orderFor(sheetId: string): Promise<ColourSheetOrder | null> {
    const order = await this.parts.testSheets.orderOf(sheetId);
    if (order !== null) return order;
    const kind = await this.kindOf(sheetId);
    if (kind === null) return null;
    throw new Problem(
      'scan.wrong-sheet',
      kind === 'grey'
        ? `Sheet ${spokenSheetId(sheetId)} is a grey sheet: it is judged by eye, not by a scan.`
        : `Sheet ${spokenSheetId(sheetId)} is a palette: it is for choosing colours from, not for measuring.`,
      {
        remedy:
          kind === 'grey'
            ? 'Look at it beside a grey card and enter what you see.'
            : 'Scan a colour test sheet or a check sheet.',
      },
    );
  }
}

function sheetIdOf(typed: string): string {
  const id = parseSheetId(typed);
  if (id !== null) return id;
  throw new Problem('request.invalid', `“${typed.slice(0, 40)}” is not the number of a sheet.`, {
    remedy: 'Type it as it stands beside the square code, ten letters and digits.',
    where: 'sheetId',
  });
}

function cardOf(card: { readonly corners: unknown; readonly values: Uint8Array }): CardGiven {
  const corners = checked(cornersSchema, card.corners, 'The corners of the card cannot be understood');
  return { corners, values: card.values };
}

const shownName = (fileName: string): string =>
  fileName.trim() === '' ? 'picture' : displayFileName(fileName);

async function hashOf(source: string | Uint8Array): Promise<string> {
  const digest = createHash('sha256');
  if (typeof source !== 'string') return digest.update(source).digest('hex');
  await onDisk('reading the picture', async () => {
    for await (const chunk of createReadStream(source)) digest.update(chunk as Uint8Array);
  });
  return digest.digest('hex');
}
