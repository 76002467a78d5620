import { randomInt } from 'node:crypto';
import type { Job, TestSheet, TestSheetProposal, TestSheetSnapshot } from '#contract';
import { Problem } from '#craft/problem';
import { parseSheetId, spokenSheetId } from '#craft/sheet';
import {
  type ColourSheetOrder,
  colourSheetId,
  type EvennessSheetOrder,
  largestColourSheetSeed,
} from '#craft/testsheet';
import type { Blanks, Setups } from '#shop/catalogue';
import type { ContentFiles, Scratch } from '#shop/files';
import type { Jobs } from '#shop/jobs';
import type { ColourPaths } from '#shop/paths';
import type { Presses } from '#shop/presses';
import { type OpenedSheetFile, openSheetFile } from '#shop/sheets';
import { canonicalJson, dropUnnamed, missing, type Records } from '#shop/store';
import { type FoundOrder, findOrder } from './found-order.js';
import type { ColourField, KeptLadder, KeptPlan, WantedColour } from './kept-plan.js';
import { type MakeTestSheetOptions, makeTestSheet } from './make-test-sheet.js';
import { type PreparedTestSheet, prepareTestSheet } from './prepare-test-sheet.js';
import { type TestSheetPreview, TestSheetPreviews, type TestSheetView } from './preview-test-sheet.js';
import { assertFits, proposeTestSheet } from './propose-test-sheet.js';
import { testSheetPage } from './test-sheet-page.js';

export interface TestSheetParts {
  readonly records: Records;
  readonly files: ContentFiles;
  readonly scratch: Scratch;
  readonly blanks: Blanks;
  readonly setups: Setups;
  readonly presses: Presses;
  readonly paths: ColourPaths;
  readonly jobs: Jobs;
  readonly workers: number | undefined;
  readonly now: () => Date;
  /** Where the page is served, when the caller says nothing else: 'http://127.0.0.1:4710'. */
  readonly address: string;
}

type Making = Partial<MakeTestSheetOptions>;

/** Everything that can be done with test sheets. Orders are checked here; any value may be given. */
export class TestSheets {
  private readonly previews: TestSheetPreviews;

  constructor(private readonly parts: TestSheetParts) {
    this.previews = new TestSheetPreviews(parts);
  }

  /** What the sheet would be. Errors: request.invalid, record.missing, sheet.impossible (a blank that takes no dye). */
  async propose(order: unknown): Promise<TestSheetProposal> {
    return proposeTestSheet(await findOrder(this.parts, order));
  }

  /** A picture of the sheet, PNG; `key` is equal for equal pictures and known before `draw` is called. */
  async preview(order: unknown, maxPixels: number, view: TestSheetView = 'paper'): Promise<TestSheetPreview> {
    return this.previews.preview(await findOrder(this.parts, order), maxPixels, view);
  }

  /** Makes sheet and ticket here and now. Errors: as `propose`, sheet.impossible, press.invalid, press.unsafe, output.unsupported, disk.full. */
  async make(order: unknown, output: unknown = {}, options: Making = {}): Promise<TestSheet> {
    const prepared = await this.prepare(order, output);
    return this.madeBefore(prepared, () => this.makeNow(prepared, options));
  }

  /** The same as a job; its result is the test sheet's id. */
  async start(order: unknown, output: unknown = {}, options: { address?: string } = {}): Promise<Job> {
    const found = await findOrder(this.parts, order, output);
    assertFits(found);
    const key = `make-test-sheet:${canonicalJson([found.order, found.output])}`;
    return this.parts.jobs.start({
      kind: 'make-test-sheet',
      key,
      work: async (context) => {
        context.onProgress(
          0,
          found.order.kind === 'ladder' ? 'Choosing the coupons' : 'Choosing the colours',
        );
        const prepared = await this.prepare(order, output);
        const recordUrl = testSheetPage(options.address ?? this.parts.address, prepared);
        const making = { ...context, recordUrl };
        return (await this.madeBefore(prepared, () => this.makeNow(prepared, making))).id;
      },
    });
  }

  list(): Promise<TestSheet[]> {
    return this.parts.records.testSheets.list();
  }

  /** By its id as recorded, or as a person types it from the paper. Errors: record.missing. */
  async get(id: string): Promise<TestSheet> {
    const sheet = await this.parts.records.testSheets.get(parseSheetId(id) ?? id);
    if (sheet === undefined) throw missing('test sheet', id);
    return sheet;
  }

  /** Blank, print setup and colour path as they were when the sheet was made. Errors: record.missing. */
  async snapshot(id: string): Promise<TestSheetSnapshot> {
    const snapshot = await this.parts.records.testSheets.snapshot(parseSheetId(id) ?? id);
    if (snapshot === undefined) throw missing('test sheet', id);
    return snapshot;
  }

  /** A file of a test sheet by the name in its record. Errors: record.missing, file.missing. */
  async openFile(id: string, fileName: string): Promise<OpenedSheetFile> {
    return openSheetFile(this.parts.files, 'test sheet', await this.get(id), fileName);
  }

  /** Readings of it and paths made from it stay. Errors: record.missing. */
  async remove(id: string): Promise<void> {
    const sheet = await this.get(id);
    await this.parts.records.testSheets.remove(sheet.id);
    await dropUnnamed(
      this.parts,
      sheet.files.map(({ contentHash }) => contentHash),
    );
  }

  /** What a picture of the sheet is read by; null for sheets this shop does not know and sheets for eyes only. */
  async orderOf(sheetId: string): Promise<ColourSheetOrder | null> {
    return (await this.keptPlan(sheetId))?.chart ?? null;
  }

  /** What each patch of a check sheet should come out as; null for other sheets. */
  async wantedOf(sheetId: string): Promise<readonly WantedColour[] | null> {
    return (await this.keptPlan(sheetId))?.wanted ?? null;
  }

  /** Every colour on a sheet for eyes only (grey sheets, palettes), as it reads; null for charts. */
  async fieldsOf(sheetId: string): Promise<readonly ColourField[] | null> {
    return (await this.keptPlan(sheetId))?.fields ?? null;
  }

  /** What pictures of a ladder's coupons are read by; null for other sheets. */
  async ladderOrderOf(sheetId: string): Promise<KeptLadder | null> {
    return (await this.keptPlan(sheetId))?.ladder ?? null;
  }

  /** What a picture of an evenness sheet is read by; null for other sheets. */
  async evennessOrderOf(sheetId: string): Promise<EvennessSheetOrder | null> {
    return (await this.keptPlan(sheetId))?.evenness ?? null;
  }

  private async keptPlan(sheetId: string): Promise<KeptPlan | undefined> {
    return (await this.parts.records.testSheets.plan(parseSheetId(sheetId) ?? sheetId)) as
      | KeptPlan
      | undefined;
  }

  private async prepare(order: unknown, output: unknown): Promise<PreparedTestSheet> {
    const found = await findOrder(this.parts, order, output);
    if (found.order.kind === 'ladder') return this.prepareLadder(found);
    if (found.order.kind !== 'colour' || found.order.seed !== undefined)
      return prepareTestSheet(this.parts, found, 0);
    const { patches: count } = found.order;
    // A seed whose sheet the shop has not made yet: two prints that bear one id could not be told apart.
    for (;;) {
      const seed = randomInt(largestColourSheetSeed + 1);
      const id = colourSheetId({ count, seed, material: found.material });
      if ((await this.parts.records.testSheets.get(id)) === undefined)
        return prepareTestSheet(this.parts, found, seed);
    }
  }

  /** Asked for again once its coupons tell something, a ladder gets an id of its own: two presses of one number would be mixed up. */
  private async prepareLadder(found: FoundOrder): Promise<PreparedTestSheet> {
    for (let round = 0; ; round += 1) {
      const prepared = await prepareTestSheet(this.parts, found, 0, round);
      if (!(await this.isPressed(prepared.sheetId))) return prepared;
    }
  }

  private async isPressed(sheetId: string): Promise<boolean> {
    const ladder = await this.parts.records.ladders.get(sheetId);
    if (ladder === undefined) return false;
    return (
      ladder.pictures.length > 0 ||
      ladder.coupons.some(
        ({ byEye, pressed, values }) => byEye !== null || pressed !== null || values !== null,
      )
    );
  }

  /** The same sheet again is found, not made; another sheet of the same id is refused. */
  private async madeBefore(prepared: PreparedTestSheet, make: () => Promise<TestSheet>): Promise<TestSheet> {
    const there = await this.parts.records.testSheets.get(prepared.sheetId);
    if (there === undefined) return make();
    const then = await this.parts.records.testSheets.snapshot(prepared.sheetId);
    const { blank, setup, path: colourPath, order, output, plan } = prepared;
    const same =
      there.widthMm === plan.widthMm &&
      there.heightMm === plan.heightMm &&
      canonicalJson(there.order) === canonicalJson(order) &&
      canonicalJson(then) === canonicalJson({ blank, setup, colourPath });
    if (!same) {
      throw new Problem(
        'request.invalid',
        `With this seed it would bear the number of test sheet ${spokenSheetId(there.id)}, which was made for ${there.setupName} and ${there.blankName}.`,
        { remedy: 'Leave the seed out, or choose another.', where: 'seed' },
      );
    }
    if (canonicalJson(there.output) !== canonicalJson(output)) return make();
    const whole = await Promise.all(there.files.map((file) => this.parts.files.has(file.contentHash)));
    return whole.every(Boolean) ? there : make();
  }

  private makeNow(prepared: PreparedTestSheet, options: Making): Promise<TestSheet> {
    const { parts } = this;
    const { recordUrl = testSheetPage(parts.address, prepared) } = options;
    return makeTestSheet({ ...parts, tagOf: (one) => this.tagOf(one) }, prepared, { ...options, recordUrl });
  }

  /** What work printed this way is tagged with: the sheet's own path, else that of the setup. */
  private async tagOf({ path, setup }: PreparedTestSheet): Promise<Uint8Array | null> {
    const { paths } = this.parts;
    const used = path ?? (setup.colourPathId === null ? null : await paths.get(setup.colourPathId));
    return used === null ? null : (await paths.profile(used)).bytes;
  }
}
