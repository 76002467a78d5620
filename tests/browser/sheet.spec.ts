import { readFile } from 'node:fs/promises';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { expectNoFaults } from './axe.js';
import { chooseAll, colourAt, expect, leading, test } from './shop.js';

test.use({ shopOf: 'sheet' });

test('from artwork dropped to a sheet and its ticket saved', async ({ page, picture }) => {
  await chooseAll(page, {
    picture,
    fileName: 'handed.png',
    blank: 'Ceramic tile, 152 mm',
    setup: 'Desktop printer, A4',
  });
  await expect(page.getByText('Colour is not calibrated.').first()).toBeVisible();

  // On paper mirrored, as pressed not: red is the artwork's left.
  const paper = page.getByRole('img', { name: /The sheet as it will lie/ });
  await expect(paper).toBeVisible();
  expect(leading(await colourAt(paper, 0.35, 0.45))).toBe('blue');
  expect(leading(await colourAt(paper, 0.65, 0.45))).toBe('red');
  await page.getByText('Laid flat', { exact: true }).click();
  const pressed = page.getByRole('img', { name: /as pressed, laid flat/ });
  await expect(pressed).toBeVisible();
  expect(leading(await colourAt(pressed, 0.25, 0.4))).toBe('red');
  expect(leading(await colourAt(pressed, 0.75, 0.4))).toBe('blue');
  expect(leading(await colourAt(pressed, 0.5, 0.95, 0.03))).toBe('green');

  await page.getByRole('button', { name: 'Make the sheet' }).click();
  await expect(page.getByRole('heading', { name: /^Sheet .* is made\.$/ })).toBeVisible({ timeout: 45_000 });
  await expect(page.getByText('Leave mirroring off in the driver.')).toBeVisible();

  await expectNoFaults(page);

  const saving = page.waitForEvent('download');
  await page.getByRole('link', { name: /Save the sheet/ }).click();
  const bytes = await readFile(await (await saving).path());
  expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
  // ISO 32000-1, 8.3.2.3: 1/72 in a unit; A4 is 210 × 297 mm (ISO 216). Read by pdf.js.
  const pdf = await getDocument({ data: new Uint8Array(bytes) }).promise;
  const [left, bottom, right, top] = (await pdf.getPage(1)).view as [number, number, number, number];
  expect(((right - left) / 72) * 25.4).toBeCloseTo(210, 1);
  expect(((top - bottom) / 72) * 25.4).toBeCloseTo(297, 1);
  await pdf.destroy();

  const ticket = page.waitForEvent('download');
  await page.getByRole('link', { name: /Save the press ticket/ }).click();
  const ticketBytes = await readFile(await (await ticket).path());
  expect(ticketBytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');

  // The record is where the ticket's code leads, and it leads back.
  await page.getByRole('link', { name: /handed\.png on Ceramic tile, 152 mm/ }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('handed.png on Ceramic tile, 152 mm');
  await page.getByRole('link', { name: 'Make another like it' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('print');
});

test('the address keeps what was chosen over a reload', async ({ page, picture }) => {
  await chooseAll(page, {
    picture,
    fileName: 'handed.png',
    blank: 'Slate coaster, round',
    setup: 'Desktop printer, A4',
  });
  await page.getByLabel('How it is laid').getByText('Free').click();
  await page.getByLabel('Width, millimetres').fill('50');
  await page.keyboard.press('Tab');
  // 50 mm across where a square picture fits a 100 mm disc at 100/√2 mm.
  await expect.poll(() => decodeURIComponent(page.url())).toContain('"scale":0.707');
  await page.reload();
  await expect(page.getByLabel('Width, millimetres')).toHaveValue(/^50\b/);
  await expect(page.getByRole('button', { name: /^on Slate coaster, round/ })).toBeVisible();
});

test('a made sheet can be stopped, and nothing of it is kept', async ({ page, picture }) => {
  await chooseAll(page, {
    picture,
    fileName: 'handed.png',
    blank: 'T-shirt front, 100 %',
    setup: 'Roll printer',
  });
  await page.getByLabel('Copies on the sheet').fill('50');
  await expect(page).toHaveURL(/copies=50/);
  const before = await (await page.request.get('/api/sheets')).json();
  const make = page.getByRole('button', { name: 'Make the sheet' });
  await expect(make).toBeEnabled();
  await make.click();
  await expect(page.getByRole('progressbar')).toBeVisible();
  await page.getByRole('button', { name: 'Stop' }).click();
  await expect(page.getByText('Stopped. Nothing was kept.')).toBeVisible();
  await expect(make).toBeEnabled();
  expect(await (await page.request.get('/api/sheets')).json()).toHaveLength(before.length);
});

test('what stands in the way is said and holds the sheet back', async ({ page, picture }) => {
  await chooseAll(page, {
    picture,
    fileName: 'handed.png',
    blank: 'Ceramic tile, not coated',
    setup: 'Desktop printer, A4',
  });
  await expect(page.getByRole('heading', { level: 1 })).toContainText('Not ready');
  await expect(page.locator('[data-level="stop"]').first()).toContainText('Put right');
  await expect(page.locator('[data-level="stop"]').first()).toContainText('What to do');
  await expect(page.getByRole('button', { name: 'Make the sheet' })).toBeDisabled();
  await expect(page.getByText('First put right:')).toBeVisible();
  await expectNoFaults(page);
});
