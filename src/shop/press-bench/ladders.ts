import { randomUUID } from 'node:crypto';
import {
  type BlackAnswer,
  type Job,
  type Ladder,
  type LadderPicture,
  ladderNotesSchema,
  type WindowCourses,
  type WindowFieldFacts,
} from '#contract';
import type { LadderFit } from '#craft/presswindow';
import { isProblem, Problem } from '#craft/problem';
import { parseSheetId, spokenSheetId } from '#craft/sheet';
import type { ContentFiles, Scratch } from '#shop/files';
import type { JobContext, Jobs } from '#shop/jobs';
import type { Presses } from '#shop/presses';
import type { Readers } from '#shop/readers';
import { checkedAbout, type ReadOptions, sourceHashOf } from '#shop/readings';
import { dropUnnamed, missing, type Records } from '#shop/store';
import type { TestSheets } from '#shop/test-sheets';
import { checked } from '#shop/validate';
import { inBenchThread } from './bench-threads.js';
import { keepCoupons, openCoupons } from './coupons-kept.js';
import { isUnusable, LadderAnswers } from './ladder-answers.js';
import { withNotes } from './ladder-notes.js';
import { type KnownLadder, readLadderPicture } from './ladder-picture.js';
import { questionOf } from './ladder-question.js';
import { emptyLadder, type PictureRead, withPictures } from './ladder-record.js';
import { eyesAgainstScan, ladderRemarks } from './ladder-words.js';
import { readAsJob } from './picture-job.js';
import { kindWords } from './sheet-words.js';

export interface LaddersParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly scratch: Scratch;
  readonly testSheets: TestSheets;
  readonly presses: Presses;
  readonly readers: Readers;
  readonly jobs: Jobs;
  readonly now: () => Date;
  /** Pictures of more pixels are refused. */
  readonly pixelLimit: number;
}

/** What a person says of a picture of coupons; any value may come. */
export interface LadderPictureSaid {
  readonly fileName: string;
  readonly sheetId?: unknown;
  readonly readerId?: unknown;
}

/** Ladders: planned on a test sheet, read from scans or judged by eye, and the window that follows. */
export class Ladders {
  private line: Promise<unknown> = Promise.resolve();

  private readonly answers: LadderAnswers;

  constructor(private readonly parts: LaddersParts) {
    this.answers = new LadderAnswers(this, async (id) => (await parts.records.blanks.get(id)) !== undefined);
  }

  /** All ladders, also those nothing is known of yet; last touched first. */
  async list(about: { readonly blankId?: string | undefined } = {}): Promise<Ladder[]> {
    const kept = await this.parts.records.ladders.list(about);
    const known = new Set(kept.map(({ sheetId }) => sheetId));
    const planned = (await this.parts.testSheets.list()).filter(
      ({ id, kind, order }) =>
        kind === 'ladder' &&
        !known.has(id) &&
        (about.blankId === undefined || order.blankId === about.blankId),
    );
    const fresh = planned.flatMap((sheet) => emptyLadder(sheet) ?? []).map(standingAlone);
    return [...kept, ...fresh].sort((a, b) => b.updatedAt.localeCompare(a.updatedAt));
  }

  /** Made from its test sheet's plan on first look. Errors: record.missing; scan.wrong-sheet for another kind of sheet. */
  async get(sheetId: string): Promise<Ladder> {
    const id = parseSheetId(sheetId) ?? sheetId;
    const kept = await this.parts.records.ladders.get(id);
    if (kept !== undefined) return kept;
    const sheet = await this.parts.records.testSheets.get(id);
    if (sheet === undefined) throw missing('ladder', sheetId);
    const ladder = emptyLadder(sheet);
    if (ladder === null) {
      throw new Problem(
        'scan.wrong-sheet',
        `Sheet ${spokenSheetId(id)} is ${kindWords[sheet.kind]}, not a ladder.`,
        { remedy: 'Choose a ladder, or read that sheet where it belongs.', where: 'sheetId' },
      );
    }
    return standingAlone(ladder);
  }

  /**
   * Reads coupons from a scan or photo, keeps what was read, and tells the window anew.
   * Errors: request.invalid, record.missing, scan.*, image.*, job.cancelled, disk.full.
   */
  async read(
    source: string | Uint8Array,
    said: LadderPictureSaid,
    options: ReadOptions = {},
  ): Promise<Ladder> {
    const { signal, onProgress = () => undefined } = options;
    const { fileName, sheetId, readerId } = checkedAbout(said);
    const { readers, files, pixelLimit } = this.parts;
    const reader = readerId === undefined ? null : await readers.get(readerId);
    const readerMap = reader === null ? null : await readers.mapOf(reader);
    onProgress(0, 'Finding the coupons');
    const read = await readLadderPicture(
      source,
      { sheetId, reader, readerMap },
      {
        ladder: (id) => this.known(id),
        isLadder: async (id) => (await this.parts.testSheets.ladderOrderOf(id)) !== null,
        nameOf: (id) => this.sheetName(id),
        pixelLimit,
      },
      signal,
    );
    onProgress(0.7, 'Working the window out');
    const sourceHash = await sourceHashOf(source);
    return this.inTurn(async () => {
      const ladder = await this.get(read.sheetId);
      const readHash = await keepCoupons(files, read.coupons);
      try {
        const picture: LadderPicture = {
          id: randomUUID(),
          fileName,
          sourceHash,
          readerId: reader?.id ?? null,
          readerName: reader?.name ?? null,
          grade: read.grade,
          surface: read.surface,
          coupons: read.coupons.map(({ number }) => number),
          remarks: [...read.remarks],
          readHash,
          createdAt: this.parts.now().toISOString(),
        };
        const before = await this.picturesOf(ladder);
        return await this.keep(withPictures(ladder, [...before, { picture, read: read.coupons }]), signal);
      } catch (error) {
        await dropUnnamed(this.parts, [readHash]).catch(() => undefined);
        throw error;
      }
    });
  }

  /** The same as a job; its result is the ladder's id. */
  start(upload: string, said: LadderPictureSaid): Promise<Job> {
    return readAsJob(
      this.parts,
      'read-ladder',
      upload,
      async () => {
        const { sheetId, readerId } = checkedAbout(said);
        if (readerId !== undefined) await this.parts.readers.get(readerId);
        if (sheetId !== undefined) await this.known(sheetId);
      },
      async (source: string, context: JobContext) => (await this.read(source, said, context)).sheetId,
    );
  }

  /** Judgements by eye, what was really set, what to leave out. Errors: request.invalid, press.unsafe, record.missing. */
  async note(sheetId: string, notes: unknown): Promise<Ladder> {
    const { coupons: said } = checked(ladderNotesSchema, notes, 'What is said of the coupons cannot be kept');
    return this.inTurn(async () => {
      const ladder = await this.get(sheetId);
      const coupons = withNotes(ladder.coupons, said);
      return this.keep(withPictures({ ...ladder, coupons }, await this.picturesOf(ladder)));
    });
  }

  /** What was read from it goes; earlier pictures of the same coupons count again. Errors: record.missing. */
  async removePicture(sheetId: string, pictureId: string): Promise<Ladder> {
    return this.inTurn(async () => {
      const ladder = await this.get(sheetId);
      const gone = ladder.pictures.find(({ id }) => id === pictureId);
      if (gone === undefined) throw missing('picture of this ladder', pictureId);
      const left = (await this.picturesOf(ladder)).filter(({ picture }) => picture.id !== pictureId);
      const kept = await this.keep(withPictures(ladder, left));
      await dropUnnamed(this.parts, gone.readHash === undefined ? [] : [gone.readHash]);
      return kept;
    });
  }

  /** The window as a picture. Errors: record.missing; ladder.unusable when there is no window yet. */
  field(sheetId: string): Promise<WindowFieldFacts> {
    return this.answers.field(sheetId);
  }

  /** Values over time at the recipe's temperature. Errors: as `field`. */
  courses(sheetId: string): Promise<WindowCourses> {
    return this.answers.courses(sheetId);
  }

  /** Null: there is none yet, or none can be made. Errors: record.missing. */
  fitOf(sheetId: string): Promise<LadderFit | null> {
    return this.answers.fitOf(sheetId);
  }

  /** Too little or too much, from one black. Errors: request.invalid, press.invalid, press.unsafe, record.missing. */
  verdict(question: unknown): Promise<BlackAnswer> {
    return this.answers.verdict(question);
  }

  /** What was read and judged goes; its test sheet stays, and with it the plan. Errors: record.missing. */
  async remove(sheetId: string): Promise<void> {
    await this.inTurn(async () => {
      const { sheetId: id, pictures } = await this.get(sheetId);
      await this.parts.records.ladders.remove(id);
      await dropUnnamed(
        this.parts,
        pictures.flatMap(({ readHash }) => readHash ?? []),
      );
    });
  }

  /** Errors: as `get`. */
  private async known(sheetId: string): Promise<KnownLadder> {
    const ladder = await this.get(sheetId);
    const { couponMm } = ladder.plan;
    // The record outlives its sheet; the size of the coupons is in it too, the material then only in their codes.
    const order = (await this.parts.testSheets.ladderOrderOf(ladder.sheetId)) ?? {
      couponWidthMm: couponMm,
      couponHeightMm: couponMm,
      material: 'hard' as const,
    };
    return {
      sheetId: ladder.sheetId,
      widthMm: order.couponWidthMm,
      heightMm: order.couponHeightMm,
      material: order.material,
      numbers: ladder.coupons.map(({ number }) => number).sort((a, b) => a - b),
    };
  }

  private async sheetName(sheetId: string): Promise<string | null> {
    const test = await this.parts.records.testSheets.get(sheetId);
    if (test !== undefined) return `${kindWords[test.kind]} for ${test.blankName}`;
    const sheet = await this.parts.records.sheets.get(sheetId);
    return sheet === undefined ? null : `${sheet.artworkName} on ${sheet.blankName}`;
  }

  private async picturesOf({ pictures }: Ladder): Promise<PictureRead[]> {
    return Promise.all(
      pictures.map(async (picture) => ({
        picture,
        read:
          picture.readHash === undefined
            ? []
            : (await openCoupons(this.parts.files, picture.readHash)).coupons,
      })),
    );
  }

  /** With its window as the coupons now have it, in the record. Errors: disk.full, job.cancelled. */
  private async keep(changed: Ladder, signal?: AbortSignal): Promise<Ladder> {
    const against = eyesAgainstScan(changed);
    const ladder: Ladder = {
      ...changed,
      coupons: changed.coupons.map((one) => {
        const remark = against.get(one.number);
        return remark === undefined ? one : { ...one, remarks: [...one.remarks, remark] };
      }),
      updatedAt: this.parts.now().toISOString(),
    };
    const settled = await this.settled(ladder, signal);
    await this.parts.records.ladders.put(settled);
    return settled;
  }

  private async settled(ladder: Ladder, signal?: AbortSignal): Promise<Ladder> {
    const asked = questionOf(ladder);
    if ('missing' in asked) return standingAlone(ladder);
    try {
      const window = await inBenchThread('answer', asked.question, signal);
      const remarks = [...ladderRemarks(ladder, await this.offsetNow(ladder)), ...window.remarks];
      return { ...ladder, window: { ...window, remarks }, standing: window.words, missing: null };
    } catch (error) {
      if (!isUnusable(error)) throw error;
      const { message, remedy } = error;
      return { ...ladder, window: null, standing: message, missing: `${message} ${remedy}` };
    }
  }

  /** Null: not known, or the press is gone. */
  private async offsetNow({ plan: { pressId } }: Ladder): Promise<number | null> {
    try {
      return (await this.parts.presses.offset(pressId)).offsetK?.value ?? null;
    } catch (error) {
      if (isProblem(error) && error.code === 'record.missing') return null;
      throw error;
    }
  }

  /** One change after another: each starts from what the one before left. */
  private inTurn<T>(work: () => Promise<T>): Promise<T> {
    const done = this.line.then(work);
    this.line = done.catch(() => undefined);
    return done;
  }
}

/** Without a window: what is still wanting. */
function standingAlone(ladder: Ladder): Ladder {
  const asked = questionOf(ladder);
  const missing = 'missing' in asked ? asked.missing : ladder.missing;
  return { ...ladder, window: null, standing: missing ?? '', missing };
}
