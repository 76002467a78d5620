import type { APIRequestContext, APIResponse, Page } from '@playwright/test';
import { expectNoFaults } from './axe.js';
import { inEveryLook } from './every-look.js';
import { scanOfEvenness } from './pressed-evenness.js';
import { expect, test } from './shop.js';

test.use({ shopOf: 'platen' });

const flatId = 'flat-380-380';
const blankId = 'slate-coaster-square-100';

/** On with Tab to the field or button of that name, as a hand without a mouse would go. */
async function reach(page: Page, name: RegExp) {
  for (let i = 0; i < 60; i += 1) {
    await page.keyboard.press('Tab');
    const at = await page.evaluate(() => {
      const element = document.activeElement as HTMLInputElement | null;
      return `${element?.getAttribute('aria-label') ?? ''} ${element?.labels?.[0]?.textContent ?? ''} ${element?.textContent ?? ''}`;
    });
    if (name.test(at)) return;
  }
  throw new Error(`Tab never came to ${name}.`);
}

test('a press is added, its force weighed, and told in every unit', async ({ page }) => {
  await page.goto('/setups');
  await page.getByRole('button', { name: 'Add a press' }).click();
  const form = page.getByRole('form', { name: 'New press' });
  await form.getByLabel('Name').fill('Boathouse press');
  await form.getByLabel('Platen, left to right, millimetres').fill('400');
  await form.getByLabel('Power, watts').fill('5');
  await form.getByRole('combobox', { name: 'Made by' }).click();
  await page.getByRole('option', { name: 'I weighed it on a scale' }).click();
  await form.getByLabel('Setting 1').fill('1');
  await form.getByLabel('Scale 1 shows').fill('50');
  await form.getByLabel('Setting 2').fill('2');
  await form.getByLabel('Scale 2 shows').fill('100');
  await form.getByRole('button', { name: 'Keep' }).click();
  await expect(form.getByRole('alert')).toContainText('cannot be');
  await expect(form.getByLabel('Power, watts')).toHaveAttribute('aria-invalid', 'true');
  await form.getByLabel('Power, watts').fill('1600');
  await expectNoFaults(page);
  await form.getByRole('button', { name: 'Keep' }).click();
  const row = page.getByRole('button', { name: /Boathouse press/ });
  await expect(row).toContainText('400 × 380');
  await expect(row).toContainText('force weighed');

  await row.click();
  await page.getByRole('link', { name: 'What does it push with?' }).click();
  await page.getByLabel('Pressed area, square centimetres').fill('100');
  await page.getByLabel('Its own scale is at').fill('1.5');
  // 75 kgf are 735.5 N (standard gravity 9.80665 m/s², CGPM 1901); on 100 cm² 0.736 bar, 10.7 psi (NIST SP 811).
  await expect(
    page.getByText('735 N', { exact: true }).or(page.getByText('736 N', { exact: true })),
  ).toBeVisible();
  await expect(page.getByRole('definition').filter({ hasText: /0\.73[56] bar/ })).toBeVisible();
  await expect(page.getByText(/10\.7 psi · 7\.3[56] N\/cm²/)).toBeVisible();
  await page.getByRole('radio', { name: 'the pressure wanted' }).check();
  await page.getByLabel('Pressure on the blank').fill('0.9807');
  // One kgf/cm²: 100 kgf on 100 cm², the second weighing.
  await expect(page.getByRole('heading', { level: 1 })).toContainText(/^Set 2(\.0)? of its own scale/);
  await expectNoFaults(page);
});

test('temperatures typed by keyboard alone become a map, an offset, and what to set', async ({ page }) => {
  await page.goto(`/press/platen/${flatId}`);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Is it as hot as it says?');
  // Nothing typed: said at the fields.
  await page.getByRole('button', { name: 'Draw the true temperatures' }).click();
  await expect(page.getByRole('alert')).toBeVisible();
  await page.reload();
  await reach(page, /display was set to/);
  await page.keyboard.type('200');
  await reach(page, /^back left/);
  for (let i = 0; i < 9; i += 1) {
    await page.keyboard.type('195');
    if (i < 8) await page.keyboard.press('Enter');
  }
  await page.keyboard.press('ArrowUp');
  await expect(page.getByLabel('middle right, degrees Celsius')).toBeFocused();
  await reach(page, /^\s*Draw the true/);
  await page.keyboard.press('Enter');
  // 195 everywhere where 200 was set: 5 too cool, so 205 for 200.
  await expect(page.getByRole('heading', { level: 1 })).toContainText(/5 °C cooler.*set 205 for 200/);
  const map = page.getByRole('img', { name: /true temperatures: from 195 °C to 195 °C/ });
  await expect(map).toBeVisible();
  expect(await map.locator('text', { hasText: '195' }).count()).toBe(9);
  await expectNoFaults(page);

  await page.goto(`/press/recipes/${blankId}?press=${flatId}`);
  const set = page.getByRole('region', { name: 'What to set' });
  // The stock recipe is 204 °C true.
  await expect(set.getByText('209 °C', { exact: true })).toBeVisible();

  // A second, pasted as a column of a table, cooler at the front.
  await page.goto(`/press/platen/${flatId}`);
  await page.getByRole('button', { name: 'Measure it again' }).click();
  await page.getByLabel('The display was set to, degrees Celsius').fill('200');
  await page.getByLabel('Places back to front').fill('4');
  await page.getByLabel('Places left to right').fill('4');
  const first = page.getByLabel('back left, degrees Celsius');
  await first.focus();
  await first.evaluate((field) => {
    const data = new DataTransfer();
    data.setData('text', '201\t202\t202\t201\n199\t200\t200\t199\n197\t197\t198\t197\n194\t195\t195\t194');
    field.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
    );
  });
  await expect(page.getByLabel('front right, degrees Celsius')).toHaveValue('194');
  await page.getByRole('button', { name: 'Draw the true temperatures' }).click();
  const found = page.getByRole('list', { name: 'What was found' });
  await expect(found).toContainText(/front is \d+ °C cooler/);
  await expect(page.getByRole('img', { name: 'A on the map' })).toBeVisible();
  await expect(page.getByRole('heading', { name: 'Over time' })).toBeVisible();
  await page.getByRole('button', { name: /^Look at it/ }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('set 205 for 200');
  await expectNoFaults(page);
});

test('an evenness sheet is ordered, pressed unevenly, read, and what came and went is said', async ({
  page,
}) => {
  test.setTimeout(180_000);
  await page.goto(`/press/evenness/new?press=${flatId}&setup=desktop-a4`);
  const form = page.getByRole('form', { name: 'An evenness sheet' });
  await form.getByRole('combobox', { name: 'Pressed on' }).fill('aluminium');
  await page.getByRole('option', { name: /Aluminium sheet/ }).click();
  await form.getByRole('radio', { name: 'Another size' }).check();
  await form.getByLabel('Sheet, back to front, millimetres').fill('148');
  await form.getByLabel('Sheet, back to front, millimetres').blur();
  await expect(form.getByText(/^Ready to print: one grey in/).first()).toBeVisible();
  await form.getByRole('radio', { name: 'PNG' }).check();
  await expectNoFaults(page);
  await form.getByRole('button', { name: 'Make the sheet' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('The sheet is made. Print and press it.', {
    timeout: 45_000,
  });
  const sheetId = page.url().split('/').pop() ?? '';
  await page.getByRole('button', { name: 'It is printed' }).click();
  await expect(page.getByText('Take care.')).toBeVisible();
  await page.getByRole('button', { name: 'It is pressed, and cool' }).click();

  const input = page.locator('input[type=file]');
  const give = async (name: string, buffer: Buffer) =>
    input.setInputFiles({ name, mimeType: 'image/png', buffer });
  await give('cat.png', Buffer.from('no picture at all'));
  await expect(page.getByRole('alert')).toContainText('What to do:', { timeout: 30_000 });
  await give('tilt.png', await scanOfEvenness(page.request, sheetId, { hotterRightK: 9 }, 1));
  const found = page.getByRole('list', { name: 'What was found' });
  await expect(found).toContainText(/left is .* paler/, { timeout: 60_000 });
  await expect(page.getByRole('img', { name: /as it lay under the press/ })).toBeVisible();
  await page.getByText('Density', { exact: true }).click();
  await expect(page.getByText('Density less that of the best region')).toBeVisible();
  await expectNoFaults(page);

  await page.getByRole('button', { name: /Have another pressing read/ }).click();
  const coldSpot = { u: 0.55, v: -0.5, radiusMm: 16, lossK: 14 };
  await give('spot.png', await scanOfEvenness(page.request, sheetId, { coldSpot }, 2));
  await expect(page.getByText('Since the last time:')).toBeVisible({ timeout: 60_000 });
  await expect(found).toContainText('back right');
  // Each reading has an address of its own.
  const readings: { id: string; fileName: string }[] = await (
    await page.request.get(`/api/evenness?sheetId=${sheetId}`)
  ).json();
  const tilt = readings.find((one) => one.fileName === 'tilt.png');
  await page.goto(`/press/evenness/${tilt?.id}`);
  await expect(found).toContainText(/left is .* paler/);
});

test('the heat of a press is drawn and told, and follows what is asked', async ({ page }) => {
  await page.goto('/press/heat');
  await page.getByRole('combobox', { name: 'Blank' }).fill('tile');
  await page.getByRole('option', { name: 'Ceramic tile, 108 mm' }).click();
  await expect(page.getByRole('heading', { level: 1 })).toContainText(/^The dye’s place|^In \d+ s/, {
    timeout: 20_000,
  });
  await expect(page.getByRole('img', { name: /^Temperature over time/ })).toBeVisible();
  await expect(page.getByRole('img', { name: /^From top to bottom: platen at 204 °C/ })).toBeVisible();
  await expect(page.getByText('Take care.').first()).toBeVisible();
  const hottest = async () => {
    const text = await page.getByText('Its hottest').locator('xpath=following-sibling::dd').textContent();
    return Number(/^\d+/.exec(text ?? '')?.[0]);
  };
  const before = await hottest();
  // No place gets hotter than what heats it.
  expect(before).toBeLessThanOrEqual(204);
  await page.getByLabel('Time, seconds').fill('20');
  await expect.poll(hottest, { timeout: 20_000 }).toBeLessThan(before);
  await page.getByText('Until it has cooled').click();
  await expect(page.getByText('no burn below')).toBeVisible();
  await expectNoFaults(page);
  // In Fahrenheit: exactly 399.2.
  await page.getByRole('radio', { name: 'Fahrenheit' }).first().click({ force: true });
  await expect(page.getByRole('img', { name: /^From top to bottom: platen at 399 °F/ })).toBeVisible();
  await page.getByRole('radio', { name: 'Celsius' }).first().click({ force: true });

  await page.getByLabel('Platen, true, degrees Celsius').fill('250');
  await expect(page.getByRole('alert')).toContainText('What to do:', { timeout: 20_000 });
});

test('a start recipe is adopted, another typed, and an earlier one taken back', async ({ page }) => {
  test.setTimeout(120_000);
  await page.goto(`/press/recipes/${blankId}`);
  const versions = page.getByRole('region', { name: /version/ });
  await expect(versions.getByRole('listitem')).toHaveCount(1);
  await expect(versions).toContainText('common practice');
  await page.getByText('A start recipe from a blank that works').click();
  const start = page.getByRole('form', { name: 'A start recipe' });
  await start.getByRole('combobox', { name: 'From the blank that works' }).fill('tile');
  await page.getByRole('option', { name: 'Ceramic tile, 152 mm' }).click();
  await start.getByLabel('At, true, degrees Celsius').fill('198');
  await start.getByRole('button', { name: 'Work out a start recipe' }).click();
  await expect(page.getByText(/^Start with 198 °C/).last()).toBeVisible({ timeout: 30_000 });
  await expect(page.getByText('To make it sure,')).toBeVisible();
  await expectNoFaults(page);
  await page.getByRole('button', { name: /^Make 198 °C, .* its recipe$/ }).click();
  await expect(page.getByText(/^Version 2 is now the recipe/)).toBeVisible();
  await expect(page.getByRole('heading', { level: 1 })).toContainText('198 °C');
  await expect(versions.getByRole('listitem')).toHaveCount(2);
  await expect(versions.getByRole('listitem').first()).toContainText('carried over by the model of heat');

  await page.getByRole('button', { name: 'Type another' }).click();
  const form = page.getByRole('form', { name: 'Another recipe' });
  await form.getByLabel('Time, seconds').fill('333');
  await form.getByRole('button', { name: 'Keep as a new version' }).click();
  await expect(form.getByText(/^Say where it comes from/)).toBeVisible();
  await form.getByLabel('What it rests on').fill('The leaflet of the invented slate works');
  await form.getByRole('button', { name: 'Keep as a new version' }).click();
  await expect(versions.getByRole('listitem')).toHaveCount(3);
  await expect(page.getByRole('heading', { level: 1 })).toContainText('5 min 33 s');
  await expect(versions.getByRole('listitem').first()).toContainText('slate works');

  await versions.getByRole('button', { name: /^Back to this.*version 1$/ }).click();
  await expect(versions.getByRole('listitem')).toHaveCount(4);
  await expect(page.getByRole('heading', { level: 1 })).toContainText('204 °C');
  // It is the blank's in every place.
  await page.goto(`/setups?open=blank:${blankId}`);
  await page.getByRole('link', { name: /^Its recipe/ }).click();
  await expect(versions.getByRole('listitem')).toHaveCount(4);
});

/** What the walk looks at, made once through the HTTP calls where no test before has left it. */
async function somethingToSee(request: APIRequestContext): Promise<string> {
  const checks: unknown[] = await (await request.get(`/api/presses/${flatId}/checks`)).json();
  if (checks.length === 0) {
    const celsius = [201, 202, 202, 201, 199, 200, 200, 199, 197, 197, 198, 197, 194, 195, 195, 194];
    const data = { setC: 200, method: 'probe', columns: 4, rows: 4, celsius };
    expect((await request.post(`/api/presses/${flatId}/checks`, { data })).ok()).toBe(true);
  }
  const readings: { sheetId: string }[] = await (await request.get('/api/evenness')).json();
  if (readings[0]) return readings[0].sheetId;
  const order = {
    kind: 'evenness',
    setupId: 'desktop-a4',
    blankId: 'aluminium-sheet-200x300',
    pressId: flatId,
    heightMm: 148,
  };
  const data = { order, output: { format: 'png' } };
  const sheetId = await outcome(request, await request.post('/api/test-sheets', { data }));
  const scan = await scanOfEvenness(request, sheetId, { hotterRightK: 9 }, 3);
  const multipart = { sheetId, file: { name: 'tilt.png', mimeType: 'image/png', buffer: scan } };
  await outcome(request, await request.post('/api/evenness', { multipart }));
  return sheetId;
}

/** Wait for work of the program; what came of it. */
async function outcome(request: APIRequestContext, answer: APIResponse): Promise<string> {
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

inEveryLook('platen, evenness, heat, force, recipes', async (page, sound) => {
  const sheetId = await somethingToSee(page.request);
  const ready = (name: RegExp) => expect(page.getByRole('heading', { level: 1 })).toHaveText(name);
  await page.goto(`/press/platen/${flatId}`);
  await ready(/set \d+ for 200/);
  await page.getByRole('button', { name: 'Measure it again' }).click();
  await page.getByRole('radio', { name: /infra-red/ }).check();
  await sound();
  await page.goto('/press/evenness/new');
  await ready(/An evenness sheet/);
  await sound();
  await page.goto(`/press/evenness/${sheetId}`);
  await expect(page.getByRole('img', { name: /as it lay under the press/ })).toBeVisible();
  await page.getByRole('button', { name: /Press it again/ }).click();
  await sound();
  await page.goto(`/press/heat?blank=glass-board-280x390&press=${flatId}`);
  await expect(page.getByRole('img', { name: /^Temperature over time/ })).toBeVisible({ timeout: 20_000 });
  await sound();
  await page.goto(`/press/recipes/${blankId}?press=${flatId}`);
  await ready(/204/);
  await page.getByRole('button', { name: 'Type another' }).click();
  await sound();
  await page.goto('/press/force');
  await ready(/pushes with/);
  await sound();
  await page.goto('/setups?open=press:flat-400-600-air');
  await expect(page.getByRole('form', { name: /Flat press, 40/ })).toBeVisible();
  await sound();
});
