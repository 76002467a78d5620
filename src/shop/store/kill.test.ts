import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, expect, test } from 'vitest';
import { openDatabase, Records } from './index.js';

const folder = mkdtempSync(path.join(tmpdir(), 'dyewright-kill-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Lets a process write until it has acknowledged at least `enough` records, then kills it without warning. */
function writeAndKill(from: number, enough: number): Promise<number[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [
      path.join(import.meta.dirname, 'write-until-killed.mjs'),
      folder,
      String(from),
    ]);
    let out = '';
    let err = '';
    child.stdout.on('data', (chunk: Buffer) => {
      out += chunk.toString();
      if (out.split('\n').length > enough) child.kill('SIGKILL');
    });
    child.stderr.on('data', (chunk: Buffer) => {
      err += chunk.toString();
    });
    child.on('error', reject);
    child.on('close', (_code, signal) => {
      if (signal !== 'SIGKILL') return reject(new Error(err || 'ended by itself'));
      // The last line may be cut short: only whole lines were acknowledged.
      resolve(out.slice(0, out.lastIndexOf('\n')).split('\n').map(Number));
    });
  });
}

test('a program killed while writing loses nothing it acknowledged, and its lock does not outlive it', async () => {
  const acknowledged: number[] = [];
  for (let round = 0; round < 5; round += 1) {
    acknowledged.push(...(await writeAndKill(round * 100_000, 20 + round * 7)));
    // Opening again needs no wait and no repair: the system dropped the dead process's lock.
    const { db, close } = await openDatabase(folder);
    const records = new Records(db);
    for (const number of acknowledged) {
      expect(await records.settings.get(`first-${number}`)).toBe(number);
      expect(await records.settings.get(`second-${number}`)).toBe(number);
    }
    const rows = await db.selectFrom('settings').select(['key', 'json']).execute();
    const firsts = rows.filter((row) => row.key.startsWith('first-')).map((row) => row.json);
    const seconds = rows.filter((row) => row.key.startsWith('second-')).map((row) => row.json);
    // Half a transaction would show as a first without its second.
    expect(firsts.sort()).toEqual(seconds.sort());
    await close();
    const raw = new Database(path.join(folder, 'shop.sqlite'), { readonly: true });
    expect(raw.pragma('integrity_check', { simple: true })).toBe('ok');
    raw.close();
  }
  expect(acknowledged.length).toBeGreaterThan(100);
});
