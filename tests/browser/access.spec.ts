import type { Page } from '@playwright/test';
import { inEveryLook } from './every-look.js';
import { expect, test } from './shop.js';

test.use({ shopOf: 'access' });

/** The sheet of the demo shop, as its record has it. */
async function demoAddress(page: Page) {
  // Made after the shop has opened.
  const list = async () => (await page.request.get('/api/sheets')).json();
  await expect.poll(async () => (await list()).length, { timeout: 30_000 }).toBeGreaterThan(0);
  const [sheet] = await list();
  const { artworkId, blankId, setupId } = sheet.request;
  return {
    sheet,
    address: `/?artwork=${encodeURIComponent(JSON.stringify(artworkId))}&blank=${blankId}&setup=${setupId}`,
  };
}

inEveryLook('sheets', async (page, sound) => {
  const { sheet, address } = await demoAddress(page);
  await page.goto('/');
  await expect(page.getByText('Drop artwork here')).toBeVisible();
  await sound();
  await page.getByRole('button', { name: /^on a blank/ }).click();
  await expect(page.getByLabel('Find a blank')).toBeVisible();
  await sound();

  await page.goto(address);
  await expect(page.getByRole('img', { name: /The sheet as it will lie/ })).toBeVisible();
  await expect(page.getByRole('slider', { name: /as pressed/ })).toBeVisible();
  await expect(page.locator('[aria-busy="true"]')).toHaveCount(0);
  await sound();

  await page.goto(`/sheets/${sheet.id}`);
  await expect(page.getByRole('link', { name: /Save the sheet/ })).toBeVisible();
  await sound();

  await page.goto('/read-back');
  await expect(page.getByText('Drop a scan or photo here')).toBeVisible();
  await sound();

  await page.goto(`/setups?open=blank:${sheet.request.blankId}`);
  await expect(page.getByRole('button', { name: 'Keep' })).toBeVisible();
  await sound();
  await page.goto('/setups?open=new-setup');
  await expect(page.getByRole('form', { name: 'New print setup' })).toBeVisible();
  await sound();
});

test('the whole way by keyboard alone', async ({ page }) => {
  await page.goto('/');
  await expect(page.getByText('Drop artwork here')).toBeVisible();
  const reach = async (name: RegExp) => {
    for (let i = 0; i < 80; i += 1) {
      await page.keyboard.press('Tab');
      const text = await page.evaluate(() => {
        const at = document.activeElement;
        return at ? `${at.getAttribute('aria-label') ?? ''} ${at.textContent ?? ''}` : '';
      });
      if (name.test(text)) return;
    }
    throw new Error(`Tab does not come to ${name}`);
  };
  await reach(/regatta-coaster\.png/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What will it be pressed on?');
  await reach(/Slate coaster, round/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which printer and paper?');
  await reach(/Demo: the studio/);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { level: 1 })).toContainText('print');
  await reach(/Artwork on the blank/);
  await page.keyboard.press('ArrowDown');
  await reach(/Make the sheet/);
  await expect(page.getByRole('button', { name: 'Make the sheet' })).toBeEnabled();
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: /is made\.$/ })).toBeVisible({ timeout: 45_000 });
});
