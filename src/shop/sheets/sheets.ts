import type { Job, Sheet, SheetProposal, SheetSnapshot } from '#contract';
import { parseSheetId } from '#craft/sheet';
import type { ArtworkShelf } from '#shop/artwork';
import type { Blanks, Setups } from '#shop/catalogue';
import type { ContentFiles, Scratch } from '#shop/files';
import type { Jobs } from '#shop/jobs';
import type { ColourPaths } from '#shop/paths';
import { missing, type Records } from '#shop/store';
import { ColourDesk } from './colour.js';
import { type MakeOptions, type MakeParts, makeSheet, refuseWrongSheet } from './make.js';
import { type OpenedSheetFile, openSheetFile } from './open-sheet-file.js';
import { prepareSheet } from './prepare.js';
import { previewSheet, type SheetView } from './preview.js';
import { Proposer, type StandingOf } from './propose.js';

export interface SheetParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly scratch: Scratch;
  readonly artwork: ArtworkShelf;
  readonly blanks: Blanks;
  readonly setups: Setups;
  readonly paths: ColourPaths;
  readonly jobs: Jobs;
  readonly workers: number | undefined;
  readonly now: () => Date;
  /** Address of a sheet's record when the caller names none. */
  readonly recordUrl: (sheetId: string) => string;
  /** Whether a colour path still fits; absent: nobody looks. */
  readonly standingOf?: StandingOf | undefined;
}

type Making = Partial<MakeOptions>;

/** Everything that can be done with sheets. Requests are checked here; any value may be given. */
export class Sheets {
  private readonly colour: ColourDesk;
  private readonly proposer: Proposer;
  private readonly making: MakeParts;

  constructor(private readonly parts: SheetParts) {
    this.colour = new ColourDesk(parts.paths);
    this.proposer = new Proposer(parts.artwork, this.colour, parts.scratch, parts.standingOf);
    this.making = { ...parts, colour: this.colour, propose: (prepared) => this.proposer.propose(prepared) };
  }

  /** What the sheet would be, looked over. Errors: request.invalid, record.missing, sheet.impossible. */
  async propose(request: unknown): Promise<SheetProposal> {
    return this.proposer.propose(await this.prepare(request));
  }

  /**
   * One view of what the sheet would be, PNG. `key` is equal for equal pictures and known before `draw` is called.
   * Errors: request.invalid, record.missing, sheet.impossible.
   */
  async preview(
    request: unknown,
    view: SheetView,
    maxPixels: number,
  ): Promise<{ key: string; draw: (signal?: AbortSignal) => Promise<Buffer> }> {
    const prepared = await this.prepare(request);
    return {
      key: `${prepared.sheetId}-${view}-${maxPixels}`,
      draw: (signal) => previewSheet(this.colour, this.parts.scratch, prepared, view, { maxPixels, signal }),
    };
  }

  /** Makes sheet and ticket here and now. Errors: as `propose`, and sheet.impossible when a check stops it. */
  async make(request: unknown, output: unknown = {}, options: Making = {}): Promise<Sheet> {
    const prepared = await this.prepare(request, output);
    return makeSheet(this.making, prepared, {
      ...options,
      recordUrl: this.addressOf(prepared.sheetId, options),
    });
  }

  /** Makes sheet and ticket as a job; the same sheet asked for while it is being made is the same job. */
  async start(
    request: unknown,
    output: unknown = {},
    options: Pick<Making, 'recordUrl'> & { recordBase?: string } = {},
  ): Promise<Job> {
    const prepared = await this.prepare(request, output);
    refuseWrongSheet(prepared);
    const recordUrl =
      options.recordBase === undefined
        ? this.addressOf(prepared.sheetId, options)
        : `${options.recordBase}/${prepared.sheetId}`;
    return this.parts.jobs.start({
      kind: 'make-sheet',
      key: `make-sheet:${prepared.sheetId}`,
      work: async (context) => (await makeSheet(this.making, prepared, { ...context, recordUrl })).id,
    });
  }

  list(): Promise<Sheet[]> {
    return this.parts.records.sheets.list();
  }

  /** By its id as recorded, or as a person types it from the paper. Errors: record.missing. */
  async get(id: string): Promise<Sheet> {
    const sheet = await this.parts.records.sheets.get(parseSheetId(id) ?? id);
    if (sheet === undefined) throw missing('sheet', id);
    return sheet;
  }

  /** The blank, print setup and colour path as they were when the sheet was made. Errors: record.missing. */
  async snapshot(id: string): Promise<SheetSnapshot> {
    const snapshot = await this.parts.records.sheets.snapshot(id);
    if (snapshot === undefined) throw missing('sheet', id);
    return snapshot;
  }

  /** A file of a sheet by the name in its record. Errors: record.missing, file.missing. */
  async openFile(id: string, fileName: string): Promise<OpenedSheetFile> {
    return openSheetFile(this.parts.files, 'sheet', await this.get(id), fileName);
  }

  private prepare(request: unknown, output?: unknown) {
    return prepareSheet({ ...this.parts, colour: this.colour }, request, output);
  }

  private addressOf(sheetId: string, options: Pick<Making, 'recordUrl'>): string | null {
    return options.recordUrl === undefined ? this.parts.recordUrl(sheetId) : options.recordUrl;
  }
}
