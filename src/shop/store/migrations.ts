import { type Kysely, type Migration, sql } from 'kysely';

/** Numbered, in order, never edited once released: a change of tables is a new entry. */
export const migrations: Record<string, Migration> = {
  '0001-first': {
    async up(db: Kysely<unknown>) {
      const text = (name: string) => sql`${sql.raw(name)} text not null`;
      const statements = [
        sql`create table blanks (id text primary key, ${text('name')}, ${text('json')}, ${text('updatedAt')}) strict`,
        sql`create table colourPaths (id text primary key, ${text('name')}, ${text('iccHash')}, ${text('json')}, ${text('createdAt')}) strict`,
        sql`create table setups (id text primary key, ${text('name')}, colourPathId text references colourPaths(id) on delete restrict, ${text('json')}, ${text('updatedAt')}) strict`,
        sql`create table artwork (id text primary key, ${text('json')}, ${text('facts')}, ${text('createdAt')}) strict`,
        sql`create table sheets (id text primary key, artworkId text not null references artwork(id) on delete restrict, ${text('json')}, ${text('snapshot')}, ${text('createdAt')}) strict`,
        sql`create table jobs (id text primary key, ${text('key')}, ${text('json')}, ${text('updatedAt')}) strict`,
        sql`create table stockOffered (kind text not null, id text not null, primary key (kind, id)) strict`,
        sql`create table settings (key text primary key, ${text('json')}) strict`,
        sql`create index sheetsByTime on sheets(createdAt)`,
        sql`create index artworkByTime on artwork(createdAt)`,
        sql`create index setupsByPath on setups(colourPathId)`,
        sql`create index jobsByKey on jobs(key)`,
      ];
      for (const statement of statements) await statement.execute(db);
    },
  },
};
