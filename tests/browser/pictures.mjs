// @ts-check
// Takes the pictures of the page in docs/ afresh, from a new demo shop: `node tests/browser/pictures.mjs`.
import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium } from '@playwright/test';
import sharp from 'sharp';

const out = process.argv[2] ?? 'docs';
const folder = mkdtempSync(path.join(tmpdir(), 'dyewright-pictures-'));
const shop = spawn(
  process.execPath,
  ['dist/cli/main.js', 'serve', '--no-open', '--port', '0', '--shop', folder],
  { stdio: ['ignore', 'pipe', 'inherit'] },
);
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
await browser.close();
shop.kill('SIGTERM');
await new Promise((resolve) => shop.once('exit', resolve));
rmSync(folder, { recursive: true, force: true });

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
