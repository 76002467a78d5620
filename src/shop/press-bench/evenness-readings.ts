import { randomUUID } from 'node:crypto';
import { type EvennessReadingFacts, idSchema, type Job, type Press } from '#contract';
import { type EvennessMap, sinceWords, wrapSides } from '#craft/evenness';
import type { EvennessReading } from '#craft/patchreading';
import { Problem } from '#craft/problem';
import { parseSheetId, spokenSheetId } from '#craft/sheet';
import type { Scratch } from '#shop/files';
import type { Jobs } from '#shop/jobs';
import type { Presses } from '#shop/presses';
import type { Readers } from '#shop/readers';
import { checkedAbout, type ReadOptions, sourceHashOf } from '#shop/readings';
import { missing, type Records } from '#shop/store';
import type { TestSheets } from '#shop/test-sheets';
import { checked } from '#shop/validate';
import { readEvennessPicture, refuseCoupons } from '#shop/vision';
import { inBenchThread } from './bench-threads.js';
import { sheetInPicture } from './other-sheet.js';
import { readAsJob } from './picture-job.js';
import { mapForPicture } from './picture-map.js';
import { kindWords } from './sheet-words.js';

export interface EvennessParts {
  readonly records: Records;
  readonly scratch: Scratch;
  readonly testSheets: TestSheets;
  readonly presses: Presses;
  readonly readers: Readers;
  readonly jobs: Jobs;
  readonly now: () => Date;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit: number;
}

/** What a person says of a picture of an evenness sheet; any value may come. */
export interface EvennessPictureSaid {
  readonly fileName: string;
  readonly sheetId?: unknown;
  readonly readerId?: unknown;
  /** The press it was pressed on; left out: the one the sheet was made for. */
  readonly pressId?: unknown;
}

/** Readings of evenness sheets: where a press gives less than elsewhere. */
export class EvennessReadings {
  constructor(private readonly parts: EvennessParts) {}

  /** Newest first; of one sheet, of one press, of both, or of all. */
  list(
    about: { readonly sheetId?: string | undefined; readonly pressId?: string | undefined } = {},
  ): Promise<EvennessReadingFacts[]> {
    const { sheetId, pressId } = about;
    return this.parts.records.evennessReadings.list({
      sheetId: sheetId === undefined ? undefined : (parseSheetId(sheetId) ?? sheetId),
      pressId,
    });
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<EvennessReadingFacts> {
    const reading = await this.parts.records.evennessReadings.get(id);
    if (reading === undefined) throw missing('reading of evenness', id);
    return reading;
  }

  /** Errors: record.missing. */
  async remove(id: string): Promise<void> {
    if (!(await this.parts.records.evennessReadings.remove(id))) throw missing('reading of evenness', id);
  }

  /**
   * Reads a scan of an evenness sheet and keeps the map.
   * Errors: request.invalid, record.missing, scan.*, image.*, job.cancelled, disk.full.
   */
  async read(
    source: string | Uint8Array,
    said: EvennessPictureSaid,
    options: ReadOptions = {},
  ): Promise<EvennessReadingFacts> {
    const { signal, onProgress = () => undefined } = options;
    const { fileName, readerId, ...about } = this.checkedSaid(said);
    const { readers, testSheets, records, pixelLimit } = this.parts;
    const reader = readerId === undefined ? null : await readers.get(readerId);
    const readerMap = reader === null ? null : await readers.mapOf(reader);
    onProgress(0, 'Finding the sheet');
    const sheetId = about.sheetId ?? (await this.sheetIn(source, signal));
    const order = await this.orderOf(sheetId);
    const read = await readEvennessPicture(source, order, { pixelLimit, signal });
    onProgress(0.6, 'Working the map out');
    const { groundRgb, cells } = read;
    const chosen = await mapForPicture(source, { reader, readerMap, groundRgb, pixelLimit });
    const sheet = await testSheets.get(sheetId);
    const pressId = about.pressId ?? sheet.evenness?.pressId ?? null;
    const press = pressId === null ? undefined : await records.presses.get(pressId);
    if (about.pressId !== undefined && press === undefined) throw missing('press', about.pressId);
    const map = await inBenchThread(
      'evenness',
      {
        columns: read.columns,
        rows: read.rows,
        pitchMm: read.pitchMm,
        groundRgb,
        cells: cells.map(({ column, row, rgb, sdOfMean, isSound }) => ({
          column,
          row,
          rgb,
          sdOfMean,
          isSound,
        })),
        map: chosen.map.data,
        isWrap: press?.kind === 'mug',
      },
      signal,
    );
    const facts: Omit<EvennessReadingFacts, 'since'> = {
      id: randomUUID(),
      sheetId,
      pressId,
      pressName: press?.name ?? null,
      fileName,
      sourceHash: await sourceHashOf(source),
      readerId: reader?.id ?? null,
      readerName: reader?.name ?? null,
      grade: chosen.grade,
      ...mapFacts(read, map),
      createdAt: this.parts.now().toISOString(),
      demo: sheet.demo,
    };
    const reading = { ...facts, since: await this.since(facts, press) };
    await records.evennessReadings.put(reading);
    return reading;
  }

  /** The same as a job; its result is the reading's id. */
  start(upload: string, said: EvennessPictureSaid): Promise<Job> {
    return readAsJob(
      this.parts,
      'read-evenness',
      upload,
      async () => {
        const { sheetId, readerId, pressId } = this.checkedSaid(said);
        if (readerId !== undefined) await this.parts.readers.get(readerId);
        if (pressId !== undefined) await this.parts.presses.get(pressId);
        if (sheetId !== undefined) await this.orderOf(sheetId);
      },
      async (source, context) => (await this.read(source, said, context)).id,
    );
  }

  private checkedSaid({ pressId, ...said }: EvennessPictureSaid) {
    const { fileName, sheetId, readerId } = checkedAbout(said);
    const press =
      pressId === undefined || pressId === ''
        ? undefined
        : checked(idSchema, pressId, 'The press named cannot be understood');
    return { fileName, sheetId, readerId, pressId: press };
  }

  private async sheetIn(source: string | Uint8Array, signal: AbortSignal | undefined): Promise<string> {
    const sheetId = await sheetInPicture(source, this.parts.pixelLimit, signal);
    if (sheetId !== null) return sheetId;
    const ladder = await refuseCoupons(source, { pixelLimit: this.parts.pixelLimit, signal });
    if (ladder !== null) throw ladder;
    throw new Problem('scan.no-marks', 'No evenness sheet can be made out in the picture.', {
      remedy: 'Scan the whole sheet flat at 150 ppi or more; or say which evenness sheet it is.',
    });
  }

  /** Errors: record.missing, scan.wrong-sheet. */
  private async orderOf(sheetId: string) {
    const order = await this.parts.testSheets.evennessOrderOf(sheetId);
    if (order !== null) return order;
    const sheet = await this.parts.records.testSheets.get(sheetId);
    if (sheet === undefined) {
      throw new Problem('record.missing', `This shop made no evenness sheet ${spokenSheetId(sheetId)}.`, {
        remedy:
          'Read it in the shop where it was made; if it is another kind of sheet, read it where it belongs.',
        where: 'sheetId',
      });
    }
    throw new Problem(
      'scan.wrong-sheet',
      `Sheet ${spokenSheetId(sheetId)} is ${kindWords[sheet.kind]}, not an evenness sheet.`,
      { remedy: 'Choose an evenness sheet, or read that sheet where it belongs.', where: 'sheetId' },
    );
  }

  /** Against the newest reading before it of the same press; where no press is named, of the same sheet. */
  private async since(
    now: Omit<EvennessReadingFacts, 'since'>,
    press: Press | undefined,
  ): Promise<EvennessReadingFacts['since']> {
    if (now.surface === 'paper') return null;
    const { pressId, sheetId } = now;
    const earlier = await this.list(pressId === null ? { sheetId } : { pressId });
    const before = earlier.find(({ surface }) => surface === 'piece');
    if (before === undefined) return null;
    const sides = press?.kind === 'mug' ? wrapSides : undefined;
    return { readingId: before.id, words: sinceWords(comparable(before), comparable(now), sides) };
  }
}

const comparable = ({ map, findings, meanDeltaE00 }: Omit<EvennessReadingFacts, 'since'>) => ({
  columns: map.columns,
  rows: map.rows,
  smooth: map.smooth,
  found: findings,
  meanDeltaE00,
});

function mapFacts(read: EvennessReading, map: EvennessMap) {
  const { columns, rows, deltaE00, densityLess, smooth } = map;
  return {
    surface: read.surface,
    map: { columns, rows, pitchMm: read.pitchMm, deltaE00, densityLess, smooth },
    best: { ...map.best },
    meanDeltaE00: map.meanDeltaE00,
    p95DeltaE00: map.p95DeltaE00,
    findings: map.found.map((found) => ({
      ...found,
      strength: { ...found.strength },
      at: found.at && { ...found.at },
      unit: 'ΔE00' as const,
    })),
    // Of unpressed paper the map says nothing of the press: that comes first.
    sentences:
      read.surface === 'paper' ? [...read.remarks, ...map.sentences] : [...map.sentences, ...read.remarks],
  };
}
