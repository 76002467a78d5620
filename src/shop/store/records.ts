import { sql } from 'kysely';
import type { Artwork, Blank, ColourPath, Job, PrintSetup, Sheet, SheetSnapshot } from '#contract';
import { pathCheckRecords, readerRecords, readingRecords, testSheetRecords } from './measuring-records.js';
import type { Db } from './open-database.js';
import {
  evennessRecords,
  ladderRecords,
  platenCheckRecords,
  pressRecords,
  recipeVersionRecords,
} from './press-records.js';
import { removed, row, rows } from './rows.js';

/** Every read and write of records. Rows are JSON in the contract's shapes, written by this program only. */
export class Records {
  readonly testSheets;
  readonly readings;
  readonly readers;
  readonly pathChecks;
  readonly presses;
  readonly platenChecks;
  readonly ladders;
  readonly evennessReadings;
  readonly recipeVersions;

  constructor(private readonly db: Db) {
    this.testSheets = testSheetRecords(db);
    this.readings = readingRecords(db);
    this.readers = readerRecords(db);
    this.pathChecks = pathCheckRecords(db);
    this.presses = pressRecords(db);
    this.platenChecks = platenCheckRecords(db);
    this.ladders = ladderRecords(db);
    this.evennessReadings = evennessRecords(db);
    this.recipeVersions = recipeVersionRecords(db);
  }

  readonly blanks = {
    list: async (): Promise<Blank[]> =>
      rows(await this.db.selectFrom('blanks').select('json').orderBy('name').execute()),
    get: async (id: string): Promise<Blank | undefined> =>
      row(await this.db.selectFrom('blanks').select('json').where('id', '=', id).executeTakeFirst()),
    put: async (blank: Blank, updatedAt: string): Promise<void> => {
      const values = { name: blank.name, json: JSON.stringify(blank), updatedAt };
      await this.db
        .insertInto('blanks')
        .values({ id: blank.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await this.db.deleteFrom('blanks').where('id', '=', id).executeTakeFirst()),
  };

  readonly setups = {
    list: async (): Promise<PrintSetup[]> =>
      rows(await this.db.selectFrom('setups').select('json').orderBy('name').execute()),
    get: async (id: string): Promise<PrintSetup | undefined> =>
      row(await this.db.selectFrom('setups').select('json').where('id', '=', id).executeTakeFirst()),
    put: async (setup: PrintSetup, updatedAt: string): Promise<void> => {
      const values = {
        name: setup.name,
        colourPathId: setup.colourPathId,
        json: JSON.stringify(setup),
        updatedAt,
      };
      await this.db
        .insertInto('setups')
        .values({ id: setup.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await this.db.deleteFrom('setups').where('id', '=', id).executeTakeFirst()),
    usingPath: async (colourPathId: string): Promise<string[]> =>
      (
        await this.db
          .selectFrom('setups')
          .select('name')
          .where('colourPathId', '=', colourPathId)
          .orderBy('name')
          .execute()
      ).map((found) => found.name),
  };

  readonly colourPaths = {
    list: async (): Promise<ColourPath[]> =>
      rows(await this.db.selectFrom('colourPaths').select('json').orderBy('name').execute()),
    get: async (id: string): Promise<ColourPath | undefined> =>
      row(await this.db.selectFrom('colourPaths').select('json').where('id', '=', id).executeTakeFirst()),
    add: async (path: ColourPath): Promise<void> => {
      await this.db
        .insertInto('colourPaths')
        .values({
          id: path.id,
          name: path.name,
          iccHash: path.iccHash,
          json: JSON.stringify(path),
          createdAt: path.createdAt,
        })
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await this.db.deleteFrom('colourPaths').where('id', '=', id).executeTakeFirst()),
  };

  readonly artwork = {
    list: async (): Promise<Artwork[]> =>
      rows(
        await this.db
          .selectFrom('artwork')
          .select('json')
          .orderBy('createdAt', 'desc')
          .orderBy('id')
          .execute(),
      ),
    get: async (id: string): Promise<Artwork | undefined> =>
      row(await this.db.selectFrom('artwork').select('json').where('id', '=', id).executeTakeFirst()),
    /** What was found in the file, as JSON the artwork use case wrote. */
    facts: async (id: string): Promise<unknown> => {
      const found = await this.db
        .selectFrom('artwork')
        .select('facts')
        .where('id', '=', id)
        .executeTakeFirst();
      return found && JSON.parse(found.facts);
    },
    /** The first record of a picture stays: the same bytes given again are the same artwork. */
    add: async (artwork: Artwork, facts: unknown): Promise<void> => {
      await this.db
        .insertInto('artwork')
        .values({
          id: artwork.id,
          json: JSON.stringify(artwork),
          facts: JSON.stringify(facts),
          createdAt: artwork.createdAt,
        })
        .onConflict((on) => on.column('id').doNothing())
        .execute();
    },
  };

  readonly sheets = {
    list: async (): Promise<Sheet[]> =>
      rows(
        await this.db
          .selectFrom('sheets')
          .select('json')
          .orderBy('createdAt', 'desc')
          .orderBy('id')
          .execute(),
      ),
    get: async (id: string): Promise<Sheet | undefined> =>
      row(await this.db.selectFrom('sheets').select('json').where('id', '=', id).executeTakeFirst()),
    snapshot: async (id: string): Promise<SheetSnapshot | undefined> => {
      const found = await this.db
        .selectFrom('sheets')
        .select('snapshot')
        .where('id', '=', id)
        .executeTakeFirst();
      return found && (JSON.parse(found.snapshot) as SheetSnapshot);
    },
    put: async (sheet: Sheet, snapshot: SheetSnapshot): Promise<void> => {
      const values = {
        artworkId: sheet.request.artworkId,
        json: JSON.stringify(sheet),
        snapshot: JSON.stringify(snapshot),
        createdAt: sheet.createdAt,
      };
      await this.db
        .insertInto('sheets')
        .values({ id: sheet.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
  };

  readonly jobs = {
    get: async (id: string): Promise<Job | undefined> =>
      row(await this.db.selectFrom('jobs').select('json').where('id', '=', id).executeTakeFirst()),
    unfinished: async (): Promise<Job[]> =>
      rows<Job>(await this.db.selectFrom('jobs').select('json').execute()).filter(
        (job) => job.state === 'waiting' || job.state === 'working',
      ),
    put: async (job: Job, key: string, updatedAt: string): Promise<void> => {
      const values = { json: JSON.stringify(job), updatedAt };
      await this.db
        .insertInto('jobs')
        .values({ id: job.id, key, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    /** Finished jobs older than `before` (ISO time) have told what they had to tell. */
    forget: async (before: string): Promise<void> => {
      await this.db.deleteFrom('jobs').where('updatedAt', '<', before).execute();
    },
  };

  readonly stock = {
    wasOffered: async (kind: string, id: string): Promise<boolean> =>
      (await this.db
        .selectFrom('stockOffered')
        .select('id')
        .where('kind', '=', kind)
        .where('id', '=', id)
        .executeTakeFirst()) !== undefined,
    offered: async (kind: string, id: string): Promise<void> => {
      await this.db
        .insertInto('stockOffered')
        .values({ kind, id })
        .onConflict((on) => on.doNothing())
        .execute();
    },
  };

  readonly settings = {
    get: async (key: string): Promise<unknown> =>
      row<unknown>(
        await this.db.selectFrom('settings').select('json').where('key', '=', key).executeTakeFirst(),
      ),
    put: async (key: string, value: unknown): Promise<void> => {
      const json = JSON.stringify(value);
      await this.db
        .insertInto('settings')
        .values({ key, json })
        .onConflict((on) => on.column('key').doUpdateSet({ json }))
        .execute();
    },
  };

  /** Whether any record speaks of a kept file, by the hash of its content. */
  async names(contentHash: string): Promise<boolean> {
    const jsonIn = {
      artwork: 'id || json || facts',
      blanks: 'json',
      colourPaths: 'json',
      evennessReadings: 'json',
      ladders: 'json',
      pathChecks: 'json',
      readers: 'json',
      readings: 'json',
      settings: 'json',
      setups: 'json',
      sheets: 'json || snapshot',
      testSheets: 'json || snapshot || plan',
    };
    for (const [table, text] of Object.entries(jsonIn)) {
      const { rows: found } =
        await sql`select 1 from ${sql.table(table)} where instr(${sql.raw(text)}, ${contentHash}) > 0 limit 1`.execute(
          this.db,
        );
      if (found.length > 0) return true;
    }
    return false;
  }

  /** All of `work` or nothing of it. */
  together<T>(work: (records: Records) => Promise<T>): Promise<T> {
    return this.db.transaction().execute((transaction) => work(new Records(transaction)));
  }
}
