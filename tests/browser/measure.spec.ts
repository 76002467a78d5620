import { readFile } from 'node:fs/promises';
import type { APIRequestContext, Page } from '@playwright/test';
import sharp from 'sharp';
import { expectNoFaults } from './axe.js';
import { inEveryLook } from './every-look.js';
import { expect, test } from './shop.js';

test.use({ shopOf: 'measure' });

const setupId = 'desktop-a4';
const blankId = 'glass-board-280x390';

/** Wait for work of the program; what came of it. */
async function outcome(request: APIRequestContext, answer: Awaited<ReturnType<APIRequestContext['post']>>) {
  expect(answer.status()).toBe(202);
  let job = (await answer.json()) as { id: string; state: string; resultId: string };
  await expect
    .poll(
      async () => {
        job = await (await request.get(`/api/jobs/${job.id}`)).json();
        return job.state;
      },
      { timeout: 60_000 },
    )
    .toBe('done');
  return job.resultId;
}

/** A test sheet made through the HTTP calls, and its file as PNG. */
async function madeSheet(request: APIRequestContext, order: Record<string, unknown>) {
  const started = await request.post('/api/test-sheets', {
    data: { order: { setupId, blankId, ...order }, output: { format: 'png' } },
  });
  const sheet = await (await request.get(`/api/test-sheets/${await outcome(request, started)}`)).json();
  const file = sheet.files.find((one: { kind: string }) => one.kind === 'sheet');
  const bytes = await (
    await request.get(`/api/test-sheets/${sheet.id}/files/${encodeURIComponent(file.fileName)}`)
  ).body();
  return { id: sheet.id as string, bytes };
}

/**
 * The pressed piece of a printer whose every channel follows one straight line, on a ground less than white and with
 * a black more than nothing; turned left for right by the pressing, scanned without loss. Nothing of our model in it.
 */
const pressedAndScanned = (bytes: Buffer) =>
  sharp(bytes)
    .flop()
    .resize({ width: 1240 })
    .linear(0.87, 16)
    .withMetadata({ density: 150 })
    .png({ compressionLevel: 1 })
    .toBuffer();

const step = (page: Page, name: string) => page.getByRole('button', { name: new RegExp(name) });
const give = (page: Page, name: string, buffer: Buffer, mimeType = 'image/png') =>
  page.locator('input[type=file]').first().setInputFiles({ name, mimeType, buffer });

test('a sheet is chosen in a few words, seen, made and saved, and the round begins', async ({ page }) => {
  await page.goto('/measure');
  await expect(page.getByRole('heading', { level: 1 })).toContainText('colour path');
  await page.getByRole('button', { name: 'Measure a colour path' }).click();
  const form = page.getByRole('form', { name: 'A colour test sheet' });
  await form.getByRole('combobox', { name: 'Printed with' }).click();
  await page.getByRole('option', { name: 'Desktop printer, A4' }).click();
  await form.getByRole('combobox', { name: 'Pressed on' }).fill('mug');
  await page.getByRole('option', { name: 'Mug, straight, 11 oz class' }).click();
  await expect(form.getByText(/flat piece of the same coating/)).toBeVisible();
  await form.getByRole('radio', { name: /Quick: 60/ }).check();
  await expect(form.getByText(/^Ready to print: 60 patches/).first()).toBeVisible();
  await expect(page.getByRole('img', { name: /as it will read on the pressed piece/ })).toBeVisible();
  await expectNoFaults(page);
  await form.getByRole('button', { name: 'Make the sheet' }).click();

  await expect(page).toHaveURL(/\/measure\/sheets\//, { timeout: 45_000 });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('The sheet is made. Print and press it.');
  const saving = page.waitForEvent('download');
  await page.getByRole('link', { name: /Save the sheet/ }).click();
  const bytes = await readFile(await (await saving).path());
  expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-');
  await expect(page.getByText('in the driver: the sheet is mirrored already.')).toBeVisible();
  await page.getByRole('button', { name: 'It is printed' }).click();
  await expect(page.getByText('Mind the heat.')).toBeVisible();
  await page.getByRole('button', { name: 'It is pressed, and cool' }).click();
  await expect(page.getByText('Drop the scan here')).toBeVisible();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Next: scan it and have it read.');

  // Where one left off is told on the place itself, and by the address after a reload.
  await page.reload();
  await expect(page.getByText('Drop the scan here')).toBeVisible();
  await page.getByRole('link', { name: 'All rounds' }).click();
  await expect(page.getByRole('link', { name: /Mug, straight.*Next: Scan it/ })).toBeVisible();
});

test('read, seen, learnt and checked', async ({ page }) => {
  test.setTimeout(180_000);
  const sheet = await madeSheet(page.request, { kind: 'colour', patches: 60, seed: 7 });
  await page.goto(`/measure/sheets/${sheet.id}`);
  await step(page, 'Have it read').click();
  const taken = page.waitForResponse((answer) => answer.url().endsWith('/api/readings') && answer.ok());
  await give(page, 'piece.png', await pressedAndScanned(sheet.bytes));
  // The page is closed and opened again under way: the work is found again.
  await taken;
  await expect(page.getByRole('progressbar')).toBeVisible();
  await page.reload();
  await expect(page.getByText('Read 60 of 60 patches from the pressed piece.')).toBeVisible({
    timeout: 45_000,
  });
  await expect(page.getByRole('heading', { name: /Grade D: scan as it came/ })).toBeVisible();
  const overlay = page.getByRole('img', { name: /outline of each patch/ });
  await expect(overlay).toBeVisible();
  const wide = (await overlay.boundingBox())!.width;
  await page.getByRole('button', { name: 'Look closer' }).click();
  expect((await overlay.boundingBox())!.width).toBeGreaterThan(wide);

  const board = page.getByRole('application', { name: /patches\. Arrow keys/ });
  await board.focus();
  await page.keyboard.press('ArrowRight');
  await expect(page.getByText(/^Column \d+, row \d+/)).toBeVisible();
  await expectNoFaults(page);

  await page.getByLabel('Call the path').fill('Faithful printer');
  await page.getByRole('button', { name: 'Learn the path' }).click();
  await expect(page.getByText(/^“Faithful printer”: colours should come out within/)).toBeVisible({
    timeout: 60_000,
  });
  await expect(page.getByText('In use: Desktop printer, A4.')).toBeVisible();

  // Printed through the path by the same printer, colours within reach must come out as asked.
  const paths: { id: string; name: string }[] = await (await page.request.get('/api/paths')).json();
  const pathId = paths.find(({ name }) => name === 'Faithful printer')!.id;
  const check = await madeSheet(page.request, { kind: 'check', pathId });
  await page.goto(`/measure/sheets/${check.id}`);
  await step(page, 'Have it read').click();
  await give(page, 'check.png', await pressedAndScanned(check.bytes));
  const row = page.getByRole('row', { name: /Colours within reach/ });
  await expect(row).toBeVisible({ timeout: 60_000 });
  const mean = Number(await row.getByRole('cell').first().textContent());
  expect(mean).toBeLessThan(1.5);
  await expect(page.getByText('The path holds.')).toBeVisible();
  await expect(page.getByRole('list', { name: 'Greys' })).toBeVisible();
  await expect(page.getByText(/nobody has calibrated/)).toBeVisible();
  await expectNoFaults(page);

  await page.goto('/measure');
  await expect(page.getByRole('listitem').filter({ hasText: 'Faithful printer' })).toContainText('Checked');
});

test('a scan given on the place itself says which sheet it is', async ({ page }) => {
  const sheet = await madeSheet(page.request, { kind: 'colour', patches: 60, seed: 9 });
  await page.goto('/measure');
  await give(page, 'whichever.png', await pressedAndScanned(sheet.bytes));
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What was read from whichever.png', {
    timeout: 45_000,
  });
  await page.getByRole('link', { name: 'On with its round' }).click();
  await expect(page.getByText(`Colour test sheet ${sheet.id}`)).toBeVisible();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Next: learn the path.');
});

test('what cannot be read is refused in words', async ({ page, picture }) => {
  const sheet = await madeSheet(page.request, { kind: 'colour', patches: 60, seed: 8 });
  await page.goto(`/measure/sheets/${sheet.id}`);
  await step(page, 'Have it read').click();
  await give(page, 'cat.png', picture);
  await expect(page.getByRole('alert')).toContainText('What to do:', { timeout: 30_000 });
  // In the server's words, not as a fault of the page.
  await expect(page.getByRole('alert')).not.toContainText('went wrong in the page');
  await give(page, 'empty.txt', Buffer.from('nothing of use\n'), 'text/plain');
  await expect(page.getByRole('alert')).toContainText('What to do:', { timeout: 30_000 });
  await page.goto('/measure/sheets/0000000000');
  await expect(page.getByRole('alert')).toContainText('What to do:');
});

test('greys are picked by keyboard alone, and a path comes of it', async ({ page }) => {
  test.setTimeout(120_000);
  const sheet = await madeSheet(page.request, { kind: 'grey' });
  await page.goto(`/measure/sheets/${sheet.id}`);
  await step(page, 'Pick the greys').click();
  const make = page.getByRole('button', { name: 'Make the path from these' });
  await expect(make).toBeDisabled();
  for (const letter of ['A', 'B', 'C', 'D', 'E']) {
    const field = page.getByRole('group', { name: new RegExp(`^Field ${letter}`) });
    await field.getByRole('radio', { name: `${letter}10`, exact: true }).focus();
    await page.keyboard.press('Space');
    await expect(field).toContainText(`Picked: ${letter}10`);
  }
  for (const label of ['F2', 'G2', 'H6']) {
    await page.getByRole('radio', { name: label, exact: true }).focus();
    await page.keyboard.press('Space');
  }
  await expectNoFaults(page);
  await make.focus();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/by eye” is learnt\.$/, {
    timeout: 60_000,
  });
  await expect(page.getByText(/Grade E · by eye/)).toBeVisible();
});

test('a scanner is added, and the corners of a target are laid by hand and by keys', async ({
  page,
  picture,
}) => {
  await page.goto('/measure');
  await page.getByRole('button', { name: 'Add one' }).click();
  const form = page.getByRole('form', { name: 'New scanner or phone' });
  await form.getByLabel('Name').fill('Flatbed on the shelf');
  await form.getByRole('button', { name: 'Keep' }).click();
  await page.getByRole('button', { name: 'Calibrate Flatbed on the shelf' }).click();
  const calibrate = page.getByRole('form', { name: 'Calibrate Flatbed on the shelf' });
  await calibrate.getByRole('radio', { name: /reference target/ }).check();
  await calibrate
    .locator('input[type=file]')
    .first()
    .setInputFiles({ name: 'target.png', mimeType: 'image/png', buffer: picture });
  const corner = calibrate.getByRole('slider', { name: 'The third corner' });
  await expect(corner).toHaveAttribute('aria-valuetext', '80 % across, 80 % down');
  await corner.scrollIntoViewIfNeeded();
  const box = (await corner.boundingBox())!;
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  const frame = (await calibrate.getByRole('img', { name: /As given/ }).boundingBox())!;
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + frame.width / 10, y + frame.height / 20, { steps: 4 });
  await page.mouse.up();
  await expect(corner).toHaveAttribute('aria-valuetext', '90 % across, 85 % down');
  await corner.focus();
  for (let i = 0; i < 3; i += 1) await page.keyboard.press('Shift+ArrowLeft');
  await expect(corner).toHaveAttribute('aria-valuetext', '87 % across, 85 % down');
  await expectNoFaults(page);

  // A file that is no target’s is refused in words.
  await calibrate
    .locator('input[type=file]')
    .last()
    .setInputFiles({ name: 'values.txt', mimeType: 'text/plain', buffer: Buffer.from('no values\n') });
  await calibrate.getByRole('button', { name: 'Calibrate', exact: true }).click();
  await expect(calibrate.getByRole('alert')).toContainText('What to do:');
  await page.getByRole('button', { name: 'Remove Flatbed on the shelf…' }).click();
  await page.getByRole('button', { name: 'Remove for good' }).click();
  await expect(page.getByRole('heading', { name: 'Flatbed on the shelf' })).toHaveCount(0);
});

inEveryLook('measuring', async (page, sound) => {
  await page.goto('/measure');
  await expect(page.getByRole('heading', { name: 'Scanners and phones' })).toBeVisible();
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('Looking it over…');
  await sound();
  await page.goto(`/measure?start=colour&setup=${setupId}&blank=${blankId}`);
  await expect(page.getByText(/^Ready to print/).first()).toBeVisible();
  await expect(page.getByRole('img', { name: /test sheet/ })).toBeVisible({ timeout: 30_000 });
  await sound();
  await page.goto('/measure?start=file');
  await expect(page.getByRole('form', { name: 'From an instrument’s file' })).toBeVisible();
  await sound();

  // Rounds that the tests before have left.
  const sheets: { id: string; kind: string }[] = await (await page.request.get('/api/test-sheets')).json();
  for (const kind of ['colour', 'check', 'grey']) {
    const sheet = sheets.find((one) => one.kind === kind);
    if (!sheet) continue;
    await page.goto(`/measure/sheets/${sheet.id}`);
    await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
    for (const title of ['Print it', 'Press it', 'Have it read', 'Pick the greys']) {
      const head = step(page, title);
      if ((await head.count()) === 0) continue;
      if ((await head.getAttribute('aria-expanded')) === 'false') await head.click();
      await sound();
    }
  }
  const readings: { id: string }[] = await (await page.request.get('/api/readings')).json();
  if (readings[0]) {
    await page.goto(`/readings/${readings[0].id}`);
    await expect(page.getByRole('heading', { name: 'Sent and seen' })).toBeVisible();
    await page.getByText('Figures', { exact: true }).click();
    await sound();
  }
});
