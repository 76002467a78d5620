import { expect, test } from './shop.js';

test.use({ shopOf: 'setups' });

test('a blank is added, complaints stand at their fields, and it is removed again', async ({ page }) => {
  await page.goto('/setups');
  await page.getByRole('button', { name: 'Add a blank' }).click();
  const form = page.getByRole('form', { name: 'New blank' });
  await form.getByLabel('Name').fill('Boathouse tile 20');
  await form.getByLabel('Width, millimetres').fill('200');
  await form.getByLabel('Height, millimetres').fill('200');
  await form.getByLabel('On which face').fill('');
  await form.getByRole('button', { name: 'Keep' }).click();
  await expect(form.getByRole('alert')).toBeVisible();
  await expect(form.getByLabel('On which face')).toHaveAttribute('aria-invalid', 'true');
  await form.getByLabel('On which face').fill('the glossy face');
  await form.getByRole('button', { name: 'Keep' }).click();
  const row = page.getByRole('button', { name: /Boathouse tile 20/ });
  await expect(row).toContainText('200 × 200');

  await row.click();
  const edit = page.getByRole('form', { name: 'Boathouse tile 20' });
  await edit.getByLabel('Time, seconds').fill('260');
  await edit.getByRole('button', { name: 'Keep' }).click();
  await expect(row).toContainText('4 min 20 s');

  await row.click();
  await page.getByRole('button', { name: 'Remove…' }).click();
  await page.getByRole('button', { name: 'Remove for good' }).click();
  await expect(row).toHaveCount(0);
});

test('a print setup is added and found on the Sheet place', async ({ page }) => {
  await page.goto('/setups?open=new-setup');
  const form = page.getByRole('form', { name: 'New print setup' });
  await form.getByLabel('Name').fill('Back room printer');
  await form.getByLabel(/^Printer/).fill('A converted inkjet');
  await form.getByLabel('Ink').fill('Four colours');
  await form.getByRole('radio', { name: /printer driver/ }).check();
  await form.getByRole('button', { name: 'Keep' }).click();
  await expect(page.getByRole('button', { name: /Back room printer/ })).toBeVisible();
  await page.goto('/');
  await page.getByRole('button', { name: /^printed with/ }).click();
  await expect(page.getByRole('button', { name: /Back room printer/ })).toBeVisible();
});

test('a broken profile is refused in words', async ({ page }) => {
  await page.goto('/setups');
  const form = page.getByRole('form', { name: 'Bring in an ICC profile' });
  await form.locator('input[type=file]').setInputFiles({
    name: 'broken.icc',
    mimeType: 'application/vnd.iccprofile',
    buffer: Buffer.alloc(200, 7),
  });
  await form.getByRole('button', { name: 'Bring it in' }).click();
  await expect(form.getByRole('alert')).toContainText('ICC profile');
  await expect(form.getByRole('alert')).toContainText('What to do:');
});

test('units and light are kept in the shop', async ({ page }) => {
  await page.goto('/setups');
  await page.getByRole('radio', { name: 'Fahrenheit' }).first().click({ force: true });
  await page.getByRole('radio', { name: 'dark' }).first().click({ force: true });
  await expect(page.getByRole('radio', { name: 'dark' }).first()).toBeChecked();
  // 200 °C is 392 °F, exactly.
  await expect(page.getByRole('button', { name: /Hardboard coaster/ })).toContainText('392 °F');
  await page.reload();
  await expect(page.locator('html')).toHaveAttribute('data-mantine-color-scheme', 'dark');
  await expect(page.getByRole('button', { name: /Hardboard coaster/ })).toContainText('392 °F');
  await page.getByRole('radio', { name: 'Celsius' }).first().click({ force: true });
  await page.getByRole('radio', { name: 'as this device has it' }).first().click({ force: true });
  await expect(page.locator('html')).toHaveAttribute('data-mantine-color-scheme', 'light');
});
