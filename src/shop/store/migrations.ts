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
  '0002-measuring': {
    async up(db: Kysely<unknown>) {
      const text = (name: string) => sql`${sql.raw(name)} text not null`;
      const statements = [
        sql`create table testSheets (id text primary key, ${text('kind')}, ${text('json')}, ${text('snapshot')}, ${text('plan')}, ${text('createdAt')}) strict`,
        sql`create table readings (id text primary key, ${text('sheetId')}, ${text('json')}, ${text('createdAt')}) strict`,
        sql`create table readers (id text primary key, ${text('name')}, ${text('json')}, ${text('updatedAt')}) strict`,
        sql`create table pathChecks (id text primary key, pathId text not null references colourPaths(id) on delete cascade, ${text('json')}, ${text('createdAt')}) strict`,
        sql`create index testSheetsByTime on testSheets(createdAt)`,
        sql`create index readingsBySheet on readings(sheetId)`,
        sql`create index readingsByTime on readings(createdAt)`,
        sql`create index pathChecksByPath on pathChecks(pathId)`,
        // Paths measured before there were readings: what they say of their error came from their own patches.
        sql`update colourPaths set json = json_set(json, '$.measurement.expectedError.restsOn', 'measured')
          where json_type(json, '$.measurement.expectedError') = 'object'
          and json_type(json, '$.measurement.expectedError.restsOn') is null`,
        sql`update colourPaths set json = json_set(json, '$.measurement.readingIds', json('[]'))
          where json_type(json, '$.measurement') = 'object' and json_type(json, '$.measurement.readingIds') is null`,
      ];
      for (const statement of statements) await statement.execute(db);
    },
  },
  '0003-press': {
    async up(db: Kysely<unknown>) {
      const text = (name: string) => sql`${sql.raw(name)} text not null`;
      const statements = [
        sql`create table presses (id text primary key, ${text('name')}, ${text('json')}, ${text('updatedAt')}) strict`,
        sql`create table platenChecks (id text primary key, pressId text not null references presses(id) on delete cascade, ${text('json')}, ${text('createdAt')}) strict`,
        sql`create table ladders (sheetId text primary key, ${text('blankId')}, ${text('json')}, ${text('updatedAt')}) strict`,
        sql`create table evennessReadings (id text primary key, ${text('sheetId')}, pressId text, ${text('json')}, ${text('createdAt')}) strict`,
        sql`create table recipeVersions (blankId text not null, number integer not null, ${text('json')}, ${text('createdAt')}, primary key (blankId, number)) strict`,
        sql`create index platenChecksByPress on platenChecks(pressId)`,
        sql`create index laddersByBlank on ladders(blankId)`,
        sql`create index laddersByTime on ladders(updatedAt)`,
        sql`create index evennessBySheet on evennessReadings(sheetId)`,
        sql`create index evennessByPress on evennessReadings(pressId)`,
        sql`create index evennessByTime on evennessReadings(createdAt)`,
      ];
      for (const statement of statements) await statement.execute(db);
    },
  },
};
