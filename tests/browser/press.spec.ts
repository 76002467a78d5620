import type { Page } from '@playwright/test';
import { expectNoFaults } from './axe.js';
import { inEveryLook } from './every-look.js';
import { madeLadder, scansOf } from './pressed-ladder.js';
import { expect, test } from './shop.js';

test.use({ shopOf: 'press' });

const setupId = 'desktop-a4';
const blankId = 'glass-board-280x390';
const blankName = 'Glass cutting board, 280 × 390 mm';
const title = (page: Page) => page.getByRole('heading', { level: 1 });
const step = (page: Page, name: RegExp) => page.getByRole('button', { name });
const give = (page: Page, name: string, buffer: Buffer) =>
  page.locator('input[type=file]').first().setInputFiles({ name, mimeType: 'image/png', buffer });

test('a ladder is planned in a few words, seen as it changes, and made', async ({ page }) => {
  await page.goto('/press');
  await expect(title(page)).toContainText('measured yet');
  await page.getByRole('link', { name: 'Plan a ladder' }).click();
  const form = page.getByRole('form', { name: 'A ladder' });
  await form.getByRole('combobox', { name: 'Printed with' }).click();
  await page.getByRole('option', { name: 'Desktop printer, A4' }).click();
  await form.getByRole('combobox', { name: 'Pressed on' }).fill('glass');
  await page.getByRole('option', { name: blankName, exact: true }).click();
  await expect(form.getByText(/^Ready to print: 9 coupons/).first()).toBeVisible();
  const plan = page.getByRole('img', { name: /^The plan:/ });
  await expect(plan).toHaveAccessibleName(/^The plan: 9 coupons/);
  // Two things, twelve coupons: the shop proposes another kind of plan, at several temperatures.
  const slider = form.getByRole('slider', { name: 'How many coupons' });
  await slider.focus();
  for (let i = 0; i < 3; i += 1) await page.keyboard.press('ArrowRight');
  await form.getByRole('checkbox', { name: 'Temperature' }).check();
  await expect(plan).toHaveAccessibleName(/^The plan: 12 coupons.*changes of temperature/);
  await expect(form.getByRole('checkbox', { name: 'Pressure' })).toBeDisabled();
  const longest = form.getByRole('textbox', { name: 'Time, from and to, highest, s' });
  await longest.fill('500');
  await expect(plan).toHaveAccessibleName(/, 500 s/);
  // Beyond what can be done safely: refused with why, in the server's words.
  const hottest = form.getByRole('textbox', { name: 'Temperature, from and to, highest, °C' });
  await hottest.fill('245');
  await expect(form.getByText(/230/).first()).toBeVisible();
  await expect(form.getByRole('button', { name: 'Make the coupons' })).toBeDisabled();
  await hottest.fill('208');
  await expect(page.getByRole('img', { name: /sheet of coupons as it will read/ })).toBeVisible();
  await expectNoFaults(page);
  await form.getByRole('button', { name: 'Make the coupons' }).click();

  await expect(page).toHaveURL(/\/press\/ladders\//, { timeout: 45_000 });
  await expect(title(page)).toHaveText('The coupons are made. Print them and press them in steps.');
  await page.getByRole('button', { name: 'It is printed' }).click();
  await expect(page.getByRole('region', { name: 'Take care' })).toContainText('heat gloves');
  const first = page.getByRole('checkbox', { name: /^Coupon 1 is pressed/ });
  const box = (await first.locator('xpath=ancestor::label').boundingBox())!;
  expect(box.height).toBeGreaterThanOrEqual(44);
  await first.check();
  await expect(page.getByText('One of 12 pressed.')).toBeVisible();
  await page.reload();
  await expect(title(page)).toHaveText('Go on pressing: 11 to go.');
  await page.getByRole('button', { name: 'All are pressed, and cool' }).click();
  await expect(title(page)).toHaveText('Next: have the coupons read, or judge them by eye.');
  await page.getByRole('link', { name: 'All of Press' }).click();
  await expect(page.getByRole('link', { name: /Glass cutting board.*Next: Scan the coupons/ })).toBeVisible();
});

test('pressed, scanned twice, read: a recipe with what it bears becomes the blank’s', async ({ page }) => {
  test.setTimeout(240_000);
  const sheet = await madeLadder(page.request, {
    setupId,
    blankId,
    coupons: 12,
    factors: [
      { kind: 'time', low: 25, high: 110 },
      { kind: 'temperature', low: 188, high: 208 },
    ],
    start: { platenC: 200, dwellSeconds: 60 },
  });
  const [one, two] = await scansOf(page.request, sheet, 8);
  await page.goto(`/press/ladders/${sheet.id}`);
  await step(page, /Have them read/).click();
  await give(page, 'first eight.png', one!);
  // Eight of twelve tell something already, and what is wanting is said.
  await expect(step(page, /Have them read.*8 of 12 coupons/)).toBeVisible({ timeout: 60_000 });
  await page.goto('/press');
  await give(page, 'the other four.png', two!);
  await expect(page).toHaveURL(new RegExp(sheet.id), { timeout: 60_000 });
  await expect(step(page, /Have them read.*12 of 12 coupons/)).toBeVisible({ timeout: 30_000 });

  await expect(title(page)).toHaveText(/20\d °C for \d+ s|19\d °C for \d+ s/);
  const picture = page.getByRole('img', { name: /^Time against temperature\./ });
  await expect(picture).toHaveAccessibleName(/Coupon 12, /);
  await expect(page.getByRole('heading', { name: 'Density of black' })).toBeVisible();
  await expect(page.getByRole('row', { name: /^7 / })).toContainText('±');
  await expectNoFaults(page);

  // What was really set is put right, and a coupon is left out: the answer follows.
  await page.getByRole('button', { name: 'Put right what was set for coupon 3' }).click();
  const form = page.getByRole('form', { name: 'What was really set for coupon 3' });
  await form.getByLabel('Time (s)').fill('77');
  await form.getByRole('button', { name: 'Keep' }).click();
  await expect(page.getByRole('row', { name: /^3 / })).toContainText('77 s');
  await page.getByRole('button', { name: 'Put right what was set for coupon 3' }).click();
  await page.getByRole('button', { name: 'As planned after all' }).click();
  const leaveOut = page.getByRole('checkbox', { name: 'Leave coupon 5 out' });
  await leaveOut.click();
  await expect(leaveOut).toBeChecked();
  await expect
    .poll(async () => (await ladderOf(page, sheet.id)).coupons.find((c) => c.number === 5)?.leftOut, {
      timeout: 30_000,
    })
    .toBe(true);
  await leaveOut.click();
  await expect(leaveOut).not.toBeChecked();
  await expect
    .poll(async () => (await ladderOf(page, sheet.id)).coupons.find((c) => c.number === 5)?.leftOut, {
      timeout: 30_000,
    })
    .toBe(false);

  await page.getByRole('button', { name: 'Make this the recipe' }).click();
  await expect(page.getByText(/^This is the recipe of Glass cutting board/)).toBeVisible();
  const { window } = await ladderOf(page, sheet.id);
  const blank = await (await page.request.get(`/api/blanks/${blankId}`)).json();
  expect(blank.recipe.dwellSeconds).toBe(window!.recipe.dwellSeconds);

  await page.goto(`/press/black?blank=${blankId}`);
  await page.getByRole('radio', { name: 'brownish' }).check({ force: true });
  await expect(page.getByRole('heading', { name: 'Pressed too much.' })).toBeVisible();
  await expect(page.getByText(/Rests on your own ladder/)).toBeVisible();
  await expectNoFaults(page);
});

test('judged by eye, by keyboard alone', async ({ page }) => {
  test.setTimeout(120_000);
  const sheet = await madeLadder(page.request, {
    setupId,
    blankId: 'tile-ceramic-108',
    coupons: 7,
    factors: [{ kind: 'time', low: 30, high: 150 }],
    start: { platenC: 200, dwellSeconds: 70 },
  });
  await page.goto(`/press/ladders/${sheet.id}`);
  await step(page, /Have them read/).focus();
  await page.keyboard.press('Enter');
  await page.getByRole('button', { name: /Judge them by eye/ }).focus();
  await page.keyboard.press('Enter');
  for (const { number, step: pressed } of sheet.ladder.coupons) {
    // A press whose blacks turn at 50 s and at 100 s, whose edges go soft at 120 s.
    const black = pressed.dwellSeconds < 50 ? 'green' : pressed.dwellSeconds < 100 ? 'neutral' : 'brown';
    const edges = pressed.dwellSeconds < 120 ? 'crisp' : 'soft';
    for (const [group, value] of [
      [`Black of coupon ${number}`, black],
      [`Edges of coupon ${number}`, edges],
    ] as const) {
      const choice = page.getByRole('group', { name: group }).getByRole('radio', { name: value });
      await choice.focus();
      await page.keyboard.press('Space');
      await expect(choice).toBeChecked();
    }
  }
  await expectNoFaults(page);
  await expect(title(page)).toHaveText(/°C for \d+ s|\d+ s/, { timeout: 20_000 });
  const kept = await ladderOf(page, sheet.id);
  for (const coupon of kept.coupons) expect(coupon.byEye?.black).toBeDefined();
  expect(kept.window!.recipe.dwellSeconds).toBeGreaterThan(45);
  expect(kept.window!.recipe.dwellSeconds).toBeLessThan(110);
});

test('a ladder that is removed is gone, sheet and all', async ({ page }) => {
  const sheet = await madeLadder(page.request, { setupId, blankId: 'tile-ceramic-152', coupons: 4 });
  await page.goto(`/press/ladders/${sheet.id}`);
  await page.getByRole('button', { name: /^Remove ladder/ }).click();
  await page.getByRole('button', { name: 'Remove for good' }).click();
  await expect(page).toHaveURL(/\/press$/);
  await expect(title(page)).not.toHaveText('Looking it over…');
  const left: { sheetId: string }[] = await (await page.request.get('/api/ladders')).json();
  expect(left.map(({ sheetId }) => sheetId)).not.toContain(sheet.id);
});

test('what cannot be read is refused in words, and one black is judged without a ladder', async ({
  page,
  picture,
}) => {
  await page.goto('/press');
  await give(page, 'cat.png', picture);
  await expect(page.getByRole('alert')).toContainText('What to do:', { timeout: 30_000 });
  await expect(page.getByRole('alert')).not.toContainText('went wrong in the page');
  await page.goto('/press/ladders/0000000000');
  await expect(page.getByRole('alert')).toContainText('What to do:');

  await page.goto('/press/black');
  await page.getByRole('radio', { name: 'greenish' }).focus();
  await page.keyboard.press('Space');
  await expect(page.getByRole('heading', { name: 'Pressed too little.' })).toBeVisible();
  await expect(page.getByText(/Rests on common practice only/)).toBeVisible();
  // As an instrument reads it: a* 0, b* 0 leans neither way.
  await page.getByText('As Lab', { exact: true }).click();
  await page.getByLabel('L*').fill('22');
  await page.getByLabel('a*').fill('0');
  await expect(page.getByRole('heading', { name: 'Pressed right.' })).toBeVisible();
});

inEveryLook('press', async (page, sound) => {
  await page.goto('/press');
  await expect(page.getByRole('heading', { name: 'Presses' })).toBeVisible();
  await expect(title(page)).not.toHaveText('Looking it over…');
  await sound();
  await page.goto(`/press/ladder/new?setup=${setupId}&blank=${blankId}&press=flat-380-380`);
  await expect(page.getByText(/^Ready to print/).first()).toBeVisible();
  await expect(page.getByRole('img', { name: /sheet of coupons/ })).toBeVisible({ timeout: 30_000 });
  await page.getByText('What stays as it is, and what the maker allows').click();
  await sound();
  await page.goto(`/press/black?blank=${blankId}`);
  await page.getByRole('radio', { name: 'greenish' }).check({ force: true });
  await expect(page.getByRole('heading', { name: 'Pressed too little.' })).toBeVisible();
  await sound();

  // Ladders that the tests before have left: with a window over two things, over one, and none.
  const ladders: { sheetId: string }[] = await (await page.request.get('/api/ladders')).json();
  for (const { sheetId } of ladders) {
    await page.goto(`/press/ladders/${sheetId}`);
    await expect(title(page)).not.toHaveText('Looking it up…');
    await sound();
    for (const name of [/Print it/, /Press the coupons/, /Have them read/]) {
      const head = step(page, name);
      if ((await head.getAttribute('aria-expanded')) === 'false') await head.click();
      await sound();
    }
  }
});

interface LadderSeen {
  readonly coupons: readonly {
    readonly number: number;
    readonly leftOut: boolean;
    readonly byEye: { readonly black?: string } | null;
  }[];
  readonly window: { readonly recipe: { readonly dwellSeconds: number } } | null;
}
const ladderOf = async (page: Page, id: string): Promise<LadderSeen> =>
  (await page.request.get(`/api/ladders/${id}`)).json();
