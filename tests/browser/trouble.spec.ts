import { expectNoFaults } from './axe.js';
import { dropFile, expect, test } from './shop.js';

test.use({ shopOf: 'trouble' });

test('a text file named like a picture: what is wrong, what to do, and the page goes on', async ({
  page,
  picture,
}) => {
  await page.goto('/');
  await expect(page.getByText('Drop artwork here')).toBeVisible();
  await dropFile(page, {
    name: 'flag.png',
    type: 'image/png',
    bytes: Buffer.from('This is a letter, not a picture.\n'),
  });
  const trouble = page.getByRole('alert');
  await expect(trouble).toBeVisible();
  await expect(trouble).toContainText('not an image this program reads');
  await expect(trouble).toContainText('What to do:');
  await expect(trouble).not.toContainText(/\bat .*\.js/);
  await expectNoFaults(page);
  await dropFile(page, { name: 'flag.png', type: 'image/png', bytes: picture });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What will it be pressed on?');
  await expect(trouble).toBeHidden();
});

test('a picture cut short is refused in words', async ({ page, picture }) => {
  await page.goto('/');
  await page
    .locator('input[type=file]')
    .first()
    .setInputFiles({
      name: 'cut.png',
      mimeType: 'image/png',
      buffer: picture.subarray(0, picture.length >> 1),
    });
  await expect(page.getByRole('alert')).toContainText('cannot be read');
});

test('no answer from the program is said, and asking again works', async ({ page }) => {
  await page.route('**/api/shop', (route) => route.abort());
  await page.goto('/');
  await expect(page.getByRole('alert')).toContainText('Dyewright does not answer');
  await page.unroute('**/api/shop');
  await page.getByRole('button', { name: 'Try again' }).click();
  await expect(page.getByRole('alert')).toBeHidden();
});

test('an address that names nothing leads back', async ({ page }) => {
  await page.goto('/nowhere');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('There is nothing at this address.');
  await page.goto('/sheets/NO-SUCH-SHEET');
  await expect(page.getByRole('alert')).toBeVisible();
  await page.goto('/?artwork=../../etc&blank=42');
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Drop your artwork to begin.');
});
