import { mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { type Migration, sql } from 'kysely';
import { afterEach, beforeEach, expect, test } from 'vitest';
import { migrations, openDatabase, Records } from './index.js';

let folder = '';
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'dyewright-store-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

test('a new folder is made with write-ahead log, full sync and foreign keys', async () => {
  const inner = path.join(folder, 'not', 'there', 'yet');
  const { db, close } = await openDatabase(inner);
  const one = async (pragma: string) =>
    Object.values((await sql.raw(`pragma ${pragma}`).execute(db)).rows[0] as object)[0];
  expect(await one('journal_mode')).toBe('wal');
  expect(await one('synchronous')).toBe(2); // FULL, sqlite.org/pragma.html#pragma_synchronous
  expect(await one('foreign_keys')).toBe(1);
  await close();
  expect(readdirSync(inner)).toContain('shop.sqlite');
});

test('a second opening of the same folder is refused, in this process and while it is held; afterwards it works', async () => {
  const first = await openDatabase(folder);
  await expect(openDatabase(folder)).rejects.toMatchObject({ code: 'shop.in-use', kind: 'conflict' });
  // The refusal let nothing of the first go.
  await expect(openDatabase(folder)).rejects.toMatchObject({ code: 'shop.in-use' });
  await new Records(first.db).settings.put('still', 'writing');
  await first.close();
  const second = await openDatabase(folder);
  expect(await new Records(second.db).settings.get('still')).toBe('writing');
  await second.close();
});

test('a lock file left behind by nobody stops nobody', async () => {
  writeFileSync(path.join(folder, 'lock.sqlite'), '');
  writeFileSync(path.join(folder, 'open-by.txt'), 'process 1\n');
  await (await openDatabase(folder)).close();
});

test('numbered migrations run once, in order, and keep what is there', async () => {
  const ran: string[] = [];
  const second: Migration = {
    async up(db) {
      ran.push('9999-colour');
      await sql`alter table blanks add column colour text`.execute(db);
    },
  };
  const before = await openDatabase(folder);
  await before.db.insertInto('blanks').values({ id: 'a', name: 'A', json: '{}', updatedAt: 'now' }).execute();
  await before.close();
  for (let opening = 0; opening < 2; opening += 1) {
    const after = await openDatabase(folder, { ...migrations, '9999-colour': second });
    expect(
      (await sql<{ id: string; colour: null }>`select id, colour from blanks`.execute(after.db)).rows,
    ).toEqual([{ id: 'a', colour: null }]);
    await after.close();
  }
  expect(ran).toEqual(['9999-colour']);
});

test('a migration that fails half way leaves the tables as they were', async () => {
  await (await openDatabase(folder)).close();
  const broken: Migration = {
    async up(db) {
      await sql`create table half (id text)`.execute(db);
      throw new Error('half way');
    },
  };
  await expect(openDatabase(folder, { ...migrations, '9999-broken': broken })).rejects.toThrow('half way');
  const { db, close } = await openDatabase(folder);
  expect((await sql`select name from sqlite_master where name = 'half'`.execute(db)).rows).toEqual([]);
  await close();
});

test('a folder from a newer program is left alone and said to be so', async () => {
  const future: Migration = { async up() {} };
  await (await openDatabase(folder, { ...migrations, '0099-future': future })).close();
  const before = statSync(path.join(folder, 'shop.sqlite')).size;
  await expect(openDatabase(folder)).rejects.toMatchObject({
    code: 'shop.newer',
    message: expect.stringContaining('0099-future'),
  });
  expect(statSync(path.join(folder, 'shop.sqlite')).size).toBe(before);
  // And the lock was let go.
  await (await openDatabase(folder, { ...migrations, '0099-future': future })).close();
});

test('a file that is no database is said to be so, not overwritten', async () => {
  const file = path.join(folder, 'shop.sqlite');
  writeFileSync(file, 'A letter to the rowing club, which is no database at all.'.repeat(40));
  await expect(openDatabase(folder)).rejects.toMatchObject({ code: 'disk.failed' });
  expect(statSync(file).size).toBe(57 * 40);
});

test('a sheet cannot name artwork that is not there, and a used colour path cannot go: the database itself holds it', async () => {
  const { db, close } = await openDatabase(folder);
  const values = { id: 's', artworkId: 'nowhere', json: '{}', snapshot: '{}', createdAt: 'now' };
  await expect(db.insertInto('sheets').values(values).execute()).rejects.toThrow(/FOREIGN KEY/);
  await db
    .insertInto('colourPaths')
    .values({ id: 'p', name: 'P', iccHash: 'h', json: '{}', createdAt: 'now' })
    .execute();
  await db
    .insertInto('setups')
    .values({ id: 's', name: 'S', colourPathId: 'p', json: '{}', updatedAt: 'now' })
    .execute();
  await expect(db.deleteFrom('colourPaths').where('id', '=', 'p').execute()).rejects.toThrow(/FOREIGN KEY/);
  await close();
});

test('a transaction that throws changes nothing', async () => {
  const { db, close } = await openDatabase(folder);
  const records = new Records(db);
  await expect(
    records.together(async (inside) => {
      await inside.settings.put('a', 1);
      throw new Error('no');
    }),
  ).rejects.toThrow('no');
  expect(await records.settings.get('a')).toBeUndefined();
  await close();
  expect(new Database(path.join(folder, 'shop.sqlite')).pragma('integrity_check', { simple: true })).toBe(
    'ok',
  );
});

test('records that are damaged are said to be, and left as they are', async () => {
  const file = path.join(folder, 'shop.sqlite');
  writeFileSync(file, 'these are no records '.repeat(400));
  const before = statSync(file);
  await expect(openDatabase(folder)).rejects.toMatchObject({
    code: 'disk.failed',
    message: expect.stringContaining('damaged'),
  });
  expect([statSync(file).size, statSync(file).mtimeMs]).toEqual([before.size, before.mtimeMs]);
});
