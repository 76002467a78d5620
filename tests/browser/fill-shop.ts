import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { filledShop, serveShop } from './serve-shop.js';

/** Once before all tests: a shop whose demonstration is wholly made, to be copied by each file of tests. */
export default async function fillShop(): Promise<() => void> {
  const folder = mkdtempSync(path.join(tmpdir(), 'dyewright-browser-filled-'));
  const shop = await serveShop(folder);
  const made = async () => ((await (await fetch(`${shop.url}/api/sheets`)).json()) as unknown[]).length;
  const deadline = Date.now() + 120_000;
  while ((await made()) < 2) {
    if (Date.now() > deadline) throw new Error('The demonstration was not made in two minutes.');
    await pause(250);
  }
  await shop.close();
  process.env[filledShop] = folder;
  return () => rmSync(folder, { recursive: true, force: true });
}
