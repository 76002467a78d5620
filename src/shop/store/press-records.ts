import type { EvennessReadingFacts, Ladder, PlatenCheck, Press, RecipeVersion } from '#contract';
import type { Db } from './open-database.js';
import { removed, row, rows } from './rows.js';

export function pressRecords(db: Db) {
  return {
    list: async (): Promise<Press[]> =>
      rows(await db.selectFrom('presses').select('json').orderBy('name').orderBy('id').execute()),
    get: async (id: string): Promise<Press | undefined> =>
      row(await db.selectFrom('presses').select('json').where('id', '=', id).executeTakeFirst()),
    put: async (press: Press, updatedAt: string): Promise<void> => {
      const values = { name: press.name, json: JSON.stringify(press), updatedAt };
      await db
        .insertInto('presses')
        .values({ id: press.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await db.deleteFrom('presses').where('id', '=', id).executeTakeFirst()),
  };
}

/** Checks go with their press. */
export function platenCheckRecords(db: Db) {
  return {
    /** Newest first; of one press, or of all. */
    list: async (pressId?: string): Promise<PlatenCheck[]> => {
      let query = db.selectFrom('platenChecks').select('json').orderBy('createdAt', 'desc').orderBy('id');
      if (pressId !== undefined) query = query.where('pressId', '=', pressId);
      return rows(await query.execute());
    },
    get: async (id: string): Promise<PlatenCheck | undefined> =>
      row(await db.selectFrom('platenChecks').select('json').where('id', '=', id).executeTakeFirst()),
    put: async (check: PlatenCheck): Promise<void> => {
      const values = { pressId: check.pressId, json: JSON.stringify(check), createdAt: check.createdAt };
      await db
        .insertInto('platenChecks')
        .values({ id: check.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await db.deleteFrom('platenChecks').where('id', '=', id).executeTakeFirst()),
  };
}

export function ladderRecords(db: Db) {
  return {
    /** Last touched first; of one blank, or of all. */
    list: async (about: { readonly blankId?: string | undefined } = {}): Promise<Ladder[]> => {
      let query = db.selectFrom('ladders').select('json').orderBy('updatedAt', 'desc').orderBy('sheetId');
      if (about.blankId !== undefined) query = query.where('blankId', '=', about.blankId);
      return rows(await query.execute());
    },
    get: async (sheetId: string): Promise<Ladder | undefined> =>
      row(await db.selectFrom('ladders').select('json').where('sheetId', '=', sheetId).executeTakeFirst()),
    put: async (ladder: Ladder): Promise<void> => {
      const values = { blankId: ladder.blankId, json: JSON.stringify(ladder), updatedAt: ladder.updatedAt };
      await db
        .insertInto('ladders')
        .values({ sheetId: ladder.sheetId, ...values })
        .onConflict((on) => on.column('sheetId').doUpdateSet(values))
        .execute();
    },
    remove: async (sheetId: string): Promise<boolean> =>
      removed(await db.deleteFrom('ladders').where('sheetId', '=', sheetId).executeTakeFirst()),
  };
}

export function evennessRecords(db: Db) {
  return {
    /** Newest first; of one sheet, of one press, of both, or of all. */
    list: async (
      about: { readonly sheetId?: string | undefined; readonly pressId?: string | undefined } = {},
    ): Promise<EvennessReadingFacts[]> => {
      let query = db.selectFrom('evennessReadings').select('json').orderBy('createdAt', 'desc').orderBy('id');
      if (about.sheetId !== undefined) query = query.where('sheetId', '=', about.sheetId);
      if (about.pressId !== undefined) query = query.where('pressId', '=', about.pressId);
      return rows(await query.execute());
    },
    get: async (id: string): Promise<EvennessReadingFacts | undefined> =>
      row(await db.selectFrom('evennessReadings').select('json').where('id', '=', id).executeTakeFirst()),
    put: async (reading: EvennessReadingFacts): Promise<void> => {
      const { sheetId, pressId, createdAt } = reading;
      const values = { sheetId, pressId, json: JSON.stringify(reading), createdAt };
      await db
        .insertInto('evennessReadings')
        .values({ id: reading.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await db.deleteFrom('evennessReadings').where('id', '=', id).executeTakeFirst()),
  };
}

/** Versions are added, never changed. */
export function recipeVersionRecords(db: Db) {
  const newestFirst = (blankId: string) =>
    db.selectFrom('recipeVersions').select('json').where('blankId', '=', blankId).orderBy('number', 'desc');
  return {
    list: async (blankId: string): Promise<RecipeVersion[]> => rows(await newestFirst(blankId).execute()),
    latest: async (blankId: string): Promise<RecipeVersion | undefined> =>
      row(await newestFirst(blankId).limit(1).executeTakeFirst()),
    /** Fails when the blank has a version of this number. */
    put: async (version: RecipeVersion): Promise<void> => {
      const { blankId, number, createdAt } = version;
      await db
        .insertInto('recipeVersions')
        .values({ blankId, number, json: JSON.stringify(version), createdAt })
        .execute();
    },
  };
}
