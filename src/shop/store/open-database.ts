import path from 'node:path';
import Database from 'better-sqlite3';
import { Kysely, type Migration, Migrator, SqliteAdapter, SqliteDialect, sql } from 'kysely';
import { Problem } from '#craft/problem';
import { asDiskProblem, makeFolder } from '#shop/files';
import { lockFolder } from './lock.js';
import { migrations as ownMigrations } from './migrations.js';
import type { Tables } from './tables.js';

export type Db = Kysely<Tables>;

export interface OpenDatabase {
  readonly db: Db;
  close(): Promise<void>;
}

/**
 * Opens (or creates) the records of a shop folder, alone. WAL with synchronous=FULL: a transaction that was
 * acknowledged is on the disk, also through a power cut (sqlite.org/pragma.html#pragma_synchronous).
 * Errors: shop.in-use, shop.newer, disk.full, disk.failed.
 */
export async function openDatabase(
  folder: string,
  migrations: Record<string, Migration> = ownMigrations,
): Promise<OpenDatabase> {
  let lock: { release(): void } | undefined;
  let db: Db | undefined;
  try {
    await makeFolder(folder);
    lock = lockFolder(folder);
    const connection = new Database(path.join(folder, 'shop.sqlite'));
    db = new Kysely<Tables>({ dialect: new WholeMigrations({ database: connection }) });
    connection.pragma('journal_mode = WAL');
    connection.pragma('synchronous = FULL');
    connection.pragma('foreign_keys = ON');
    await migrate(db, migrations);
    const opened = db;
    const held = lock;
    return {
      db: opened,
      async close() {
        await opened.destroy();
        held.release();
      },
    };
  } catch (error) {
    await db?.destroy().catch(() => undefined);
    lock?.release();
    throw asDiskProblem(error, 'the shop folder was opened');
  }
}

/**
 * SQLite rolls DDL back with its transaction (sqlite.org/lang_transaction.html); Kysely does not count on it, so it
 * would leave a failed migration half done.
 */
class WholeMigrations extends SqliteDialect {
  override createAdapter(): SqliteAdapter {
    return new TransactionalAdapter();
  }
}

class TransactionalAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

async function migrate(db: Db, migrations: Record<string, Migration>): Promise<void> {
  const unknown = (await appliedMigrations(db)).filter((name) => !(name in migrations));
  if (unknown.length > 0) {
    throw new Problem(
      'shop.newer',
      `The shop folder was written by a newer program (it has ${unknown.join(', ')}).`,
      {
        remedy: 'Use the newer program with this folder, or name another shop folder. Nothing was changed.',
      },
    );
  }
  const migrator = new Migrator({ db, provider: { getMigrations: async () => migrations } });
  const { error } = await migrator.migrateToLatest();
  if (error !== undefined) throw error;
}

async function appliedMigrations(db: Db): Promise<string[]> {
  const tables = await sql<{
    name: string;
  }>`select name from sqlite_master where type = 'table' and name = 'kysely_migration'`.execute(db);
  if (tables.rows.length === 0) return [];
  return (await sql<{ name: string }>`select name from kysely_migration`.execute(db)).rows.map(
    (row) => row.name,
  );
}
