// @ts-check
// Takes the pictures of the page in docs/ afresh, from a new demo shop: `node tests/browser/pictures.mjs`; only some of
// them: `node tests/browser/pictures.mjs docs heat platen`.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium } from '@playwright/test';
import sharp from 'sharp';
import { writeCgats } from '#craft/cgats';
import { labFromSrgb } from '#craft/colour';
import { choosePatches } from '#craft/testsheet';

const out = process.argv[2] ?? 'docs';
const only = process.argv.slice(3);
const folder = mkdtempSync(path.join(tmpdir(), 'dyewright-pictures-'));
const shop = spawn(
  process.execPath,
  ['dist/cli/main.js', 'serve', '--no-open', '--port', '0', '--shop', folder],
  { stdio: ['ignore', 'pipe', 'inherit'] },
);
// Also when a picture fails.
process.once('exit', () => shop.kill('SIGTERM'));
/** @type {string} */
const url = await new Promise((resolve) => {
  shop.stdout.on('data', (chunk) => {
    const found = /http:\/\/127\.0\.0\.1:\d+/.exec(String(chunk));
    if (found) resolve(found[0]);
  });
});
/** @returns {Promise<{ id: string, blankName: string, request: { artworkId: string, blankId: string, setupId: string } }[]>} */
const sheets = async () => (await fetch(`${url}/api/sheets`)).json();
while ((await sheets()).length < 2) await new Promise((resolve) => setTimeout(resolve, 500));
const all = await sheets();
const mug = all.find((sheet) => /mug/i.test(sheet.blankName));
const other = all.find((sheet) => sheet !== mug);
if (!mug || !other) throw new Error('The demo shop has no mug sheet.');
const address = (/** @type {typeof mug} */ { request }) =>
  `/?artwork=${encodeURIComponent(JSON.stringify(request.artworkId))}&blank=${request.blankId}&setup=${request.setupId}`;

const debian = '/usr/bin/chromium';
const browser = await chromium.launch({
  ...(existsSync(debian) ? { executablePath: debian } : {}),
  args: ['--no-sandbox', '--disable-gpu', '--enable-unsafe-swiftshader'],
});
const desktop = { width: 1280, height: 900 };
const phone = { width: 375, height: 812 };
await take('start-desktop', '/', desktop);
await take('sheet-desktop', address(mug), { width: 1280, height: 1640, whole: false });
await take('sheet-desktop-whole', address(mug), desktop);
await take('sheet-desktop-dark', address(other), { ...desktop, scheme: 'dark' });
await take('sheet-phone', address(mug), phone);
await take('sheet-phone-dark', address(other), { ...phone, scheme: 'dark' });
await take('made-desktop', `/sheets/${mug.id}`, desktop);
await take('setups-desktop', `/setups?open=blank:${mug.request.blankId}`, desktop);
await take('read-back-desktop', '/read-back', { ...desktop, scan: await scanOf(mug.id) });
const board = { setupId: 'desktop-a4', blankId: 'glass-board-280x390' };
await take('measure-desktop', `/measure?start=colour&setup=${board.setupId}&blank=${board.blankId}`, desktop);
if (wanted('reading-desktop')) await take('reading-desktop', `/readings/${await readingOf()}`, desktop);
/** @type {{ id: string, kind: string, demo: boolean }[]} */
const presses = await (await fetch(`${url}/api/presses`)).json();
const flat = presses.find((press) => press.demo) ?? presses.find((press) => press.kind === 'flat');
if (!flat) throw new Error('The demo shop has no press.');
if (wanted('ladder')) {
  const ladderId = await pressed('/api/ladders/pictures', 'ladder-scan.jpg');
  await take('ladder-desktop', `/press/ladders/${ladderId}`, { width: 1280, height: 1240, whole: false });
  await take('ladder-phone', `/press/ladders/${ladderId}`, { width: 375, height: 1680, whole: false });
}
if (wanted('evenness')) {
  const readingId = await pressed('/api/evenness', 'evenness-scan.jpg');
  await take('evenness-desktop', `/press/evenness/${readingId}`, desktop);
}
await take('platen-desktop', `/press/platen/${flat.id}`, desktop);
await take('heat-desktop', `/press/heat?blank=slate-coaster-square-100&press=${flat.id}`, desktop);
await take('recipe-desktop', `/press/recipes/slate-coaster-square-100?press=${flat.id}`, desktop);
const pathId = only.length === 0 || only.some((one) => /path|lookup/.test(one)) ? await pathOf() : '';
await take('path-desktop', `/paths/${pathId}`, desktop);
await take('lookup-desktop', `/paths/${pathId}/lookup?hex=2f7ab8`, desktop);
await take('lookup-phone', `/paths/${pathId}/lookup?hex=2f7ab8`, phone);
await browser.close();
shop.kill('SIGTERM');
await new Promise((resolve) => shop.once('exit', resolve));
rmSync(folder, { recursive: true, force: true });

/** @param {string} name */
function wanted(name) {
  return only.length === 0 || only.some((one) => name.startsWith(one));
}

/** What comes of work that the program was asked for. @param {string} where @param {RequestInit} order */
async function outcome(where, order) {
  const answer = await fetch(url + where, { method: 'POST', ...order });
  if (!answer.ok) throw new Error(await answer.text());
  let job = await answer.json();
  while (job.state === 'waiting' || job.state === 'working') {
    await new Promise((resolve) => setTimeout(resolve, 300));
    job = await (await fetch(`${url}/api/jobs/${job.id}`)).json();
  }
  if (job.state !== 'done') throw new Error(JSON.stringify(job.problem));
  return job.resultId;
}

/** An invented printer: its dyes mix a little into each other, white is off white, black is not quite black. */
function printed(/** @type {import('sharp').Sharp} */ picture) {
  return picture
    .recomb([
      [0.8, 0.15, 0.05],
      [0.08, 0.84, 0.08],
      [0.04, 0.14, 0.82],
    ])
    .linear(0.84, 24);
}

/** A colour sheet of that printer, pressed (turned left for right) and scanned; its reading. */
async function readingOf() {
  const id = await outcome('/api/test-sheets', {
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({
      order: { kind: 'colour', patches: 150, seed: 4, ...board },
      output: { format: 'png' },
    }),
  });
  const sheet = await (await fetch(`${url}/api/test-sheets/${id}`)).json();
  const name = sheet.files.find((/** @type {{ kind: string }} */ file) => file.kind === 'sheet').fileName;
  const file = await fetch(`${url}/api/test-sheets/${id}/files/${encodeURIComponent(name)}`);
  const flat = await sharp(Buffer.from(await file.arrayBuffer()))
    .removeAlpha()
    .flop()
    .resize({ width: 1654 })
    .toBuffer();
  const scan = await printed(sharp(flat)).withMetadata({ density: 200 }).png().toBuffer();
  const form = new FormData();
  form.append('sheetId', id);
  form.append('file', new Blob([new Uint8Array(scan)], { type: 'image/png' }), 'pressed-board.png');
  return outcome('/api/readings', { body: form });
}

/** An example of the demo's sheets, pressed by a simulated press; what it was read as. @param {string} route @param {string} name */
async function pressed(route, name) {
  const form = new FormData();
  form.append('file', new Blob([await readFile(path.join('examples', name))], { type: 'image/jpeg' }), name);
  return outcome(route, { body: form });
}

/** What no two prints share: within 1.5 up or down, the same every time this runs. @param {number} i */
function scatter(i) {
  return 1.5 * Math.sin(12.9898 * (i + 1) ** 2);
}

/** The same printer's path, from a file as an instrument writes it. */
async function pathOf() {
  const rows = choosePatches(150, 4).map(({ rgb }) => rgb);
  const device = Buffer.from(rows.flatMap((rgb) => rgb.map((v) => Math.round(v * 255))));
  const seen = await printed(sharp(device, { raw: { width: rows.length, height: 1, channels: 3 } }))
    .raw()
    .toBuffer();
  const table = {
    device: { space: /** @type {const} */ ('RGB'), rows },
    lab: rows.map((_, i) => {
      const [l, a, b] = labFromSrgb([seen[3 * i] / 255, seen[3 * i + 1] / 255, seen[3 * i + 2] / 255]);
      return /** @type {[number, number, number]} */ ([
        l + scatter(3 * i),
        a + scatter(3 * i + 1),
        b + scatter(3 * i + 2),
      ]);
    }),
    xyz: null,
    spectra: null,
    sdLab: null,
    sampleIds: rows.map((_, i) => `P${i + 1}`),
    keywords: new Map(),
    remarks: [],
  };
  const form = new FormData();
  form.append('name', 'Demo: the studio’s A4 printer on glass');
  for (const [name, value] of Object.entries(board)) form.append(name, value);
  const text = writeCgats(table, { originator: 'Invented printer' });
  form.append('file', new Blob([text], { type: 'text/plain' }), 'chart.txt');
  return outcome('/api/paths/measured-file', { body: form });
}

/** The sheet's paper preview, mirrored again: what a driver that mirrors too would print. @param {string} id */
async function scanOf(id) {
  const sheet = await (await fetch(`${url}/api/sheets/${id}`)).json();
  const query = new URLSearchParams({ request: JSON.stringify(sheet.request), view: 'paper', max: '2400' });
  const preview = Buffer.from(await (await fetch(`${url}/api/sheets/preview?${query}`)).arrayBuffer());
  return sharp(preview).flop().png().toBuffer();
}

/**
 * @param {string} name @param {string} where
 * @param {{ width: number, height: number, scheme?: 'light' | 'dark', scan?: Buffer, whole?: boolean }} how
 */
async function take(name, where, how) {
  if (!wanted(name)) return;
  const context = await browser.newContext({
    viewport: { width: how.width, height: how.height },
    colorScheme: how.scheme ?? 'light',
    deviceScaleFactor: how.width < 500 ? 2 : 1,
    reducedMotion: 'reduce',
    locale: 'en-GB',
  });
  const page = await context.newPage();
  await page.goto(url + where);
  await page.waitForLoadState('networkidle');
  if (how.scan) {
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'scan.png', mimeType: 'image/png', buffer: how.scan });
    await page.getByText('Corner marks found').waitFor({ timeout: 60_000 });
  }
  await page.waitForTimeout(1500);
  const shot = await page.screenshot({ fullPage: how.whole ?? true });
  await sharp(shot)
    .png({ palette: true, quality: 95, effort: 10 })
    .toFile(path.join(out, `${name}.png`));
  await context.close();
}
