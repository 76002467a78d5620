import type { PathCheck, Reader, Reading, TestSheet, TestSheetSnapshot } from '#contract';
import type { Db } from './open-database.js';
import { removed, row, rows } from './rows.js';

/** Test sheets. `plan` is JSON that the test sheets' use case wrote: what reading the sheet goes by. */
export function testSheetRecords(db: Db) {
  const column = async (id: string, name: 'snapshot' | 'plan'): Promise<unknown> => {
    const found = await db.selectFrom('testSheets').select(name).where('id', '=', id).executeTakeFirst();
    const text = (found as Partial<Record<typeof name, string>> | undefined)?.[name];
    return text === undefined ? undefined : JSON.parse(text);
  };
  return {
    list: async (): Promise<TestSheet[]> =>
      rows(
        await db.selectFrom('testSheets').select('json').orderBy('createdAt', 'desc').orderBy('id').execute(),
      ),
    get: async (id: string): Promise<TestSheet | undefined> =>
      row(await db.selectFrom('testSheets').select('json').where('id', '=', id).executeTakeFirst()),
    snapshot: async (id: string): Promise<TestSheetSnapshot | undefined> =>
      (await column(id, 'snapshot')) as TestSheetSnapshot | undefined,
    plan: (id: string): Promise<unknown> => column(id, 'plan'),
    put: async (sheet: TestSheet, snapshot: TestSheetSnapshot, plan: unknown): Promise<void> => {
      const values = {
        kind: sheet.kind,
        json: JSON.stringify(sheet),
        snapshot: JSON.stringify(snapshot),
        plan: JSON.stringify(plan),
        createdAt: sheet.createdAt,
      };
      await db
        .insertInto('testSheets')
        .values({ id: sheet.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await db.deleteFrom('testSheets').where('id', '=', id).executeTakeFirst()),
  };
}

export function readingRecords(db: Db) {
  return {
    /** Newest first; of one sheet, or of all. */
    list: async (sheetId?: string): Promise<Reading[]> => {
      let query = db.selectFrom('readings').select('json').orderBy('createdAt', 'desc').orderBy('id');
      if (sheetId !== undefined) query = query.where('sheetId', '=', sheetId);
      return rows(await query.execute());
    },
    get: async (id: string): Promise<Reading | undefined> =>
      row(await db.selectFrom('readings').select('json').where('id', '=', id).executeTakeFirst()),
    put: async (reading: Reading): Promise<void> => {
      const values = {
        sheetId: reading.sheetId,
        json: JSON.stringify(reading),
        createdAt: reading.createdAt,
      };
      await db
        .insertInto('readings')
        .values({ id: reading.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await db.deleteFrom('readings').where('id', '=', id).executeTakeFirst()),
  };
}

export function readerRecords(db: Db) {
  return {
    list: async (): Promise<Reader[]> =>
      rows(await db.selectFrom('readers').select('json').orderBy('name').orderBy('id').execute()),
    get: async (id: string): Promise<Reader | undefined> =>
      row(await db.selectFrom('readers').select('json').where('id', '=', id).executeTakeFirst()),
    put: async (reader: Reader, updatedAt: string): Promise<void> => {
      const values = { name: reader.name, json: JSON.stringify(reader), updatedAt };
      await db
        .insertInto('readers')
        .values({ id: reader.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await db.deleteFrom('readers').where('id', '=', id).executeTakeFirst()),
  };
}

/** Checks go with their colour path. */
export function pathCheckRecords(db: Db) {
  return {
    /** Newest first; of one path, or of all. */
    list: async (pathId?: string): Promise<PathCheck[]> => {
      let query = db.selectFrom('pathChecks').select('json').orderBy('createdAt', 'desc').orderBy('id');
      if (pathId !== undefined) query = query.where('pathId', '=', pathId);
      return rows(await query.execute());
    },
    get: async (id: string): Promise<PathCheck | undefined> =>
      row(await db.selectFrom('pathChecks').select('json').where('id', '=', id).executeTakeFirst()),
    put: async (check: PathCheck): Promise<void> => {
      const values = { pathId: check.pathId, json: JSON.stringify(check), createdAt: check.createdAt };
      await db
        .insertInto('pathChecks')
        .values({ id: check.id, ...values })
        .onConflict((on) => on.column('id').doUpdateSet(values))
        .execute();
    },
    remove: async (id: string): Promise<boolean> =>
      removed(await db.deleteFrom('pathChecks').where('id', '=', id).executeTakeFirst()),
  };
}
