import sharp from 'sharp';
import { expectNoFaults } from './axe.js';
import { expect, test } from './shop.js';

test.use({ shopOf: 'read-back' });

/** A sheet made through the HTTP calls, as PNG: what a perfect printer would put on paper. */
async function madeSheet(request: import('@playwright/test').APIRequestContext, picture: Buffer) {
  const artwork = await (
    await request.post('/api/artwork', {
      multipart: { file: { name: 'handed.png', mimeType: 'image/png', buffer: picture } },
    })
  ).json();
  const start = await request.post('/api/sheets', {
    data: {
      request: { artworkId: artwork.id, blankId: 'tile-ceramic-108', setupId: 'desktop-a4', ppi: 150 },
      output: { format: 'png' },
    },
  });
  const { id } = await start.json();
  let job = await (await request.get(`/api/jobs/${id}`)).json();
  await expect
    .poll(async () => {
      job = await (await request.get(`/api/jobs/${id}`)).json();
      return job.state;
    })
    .toBe('done');
  const sheet = await (await request.get(`/api/sheets/${job.resultId}`)).json();
  const file = sheet.files.find((one: { kind: string }) => one.kind === 'sheet');
  const bytes = await (await request.get(`/api/sheets/${sheet.id}/files/${file.fileName}`)).body();
  return { id: sheet.id as string, bytes };
}

test('a scan printed right, and one mirrored again by the driver', async ({ page, picture }) => {
  const sheet = await madeSheet(page.request, picture);
  await page.goto('/read-back');
  const give = (buffer: Buffer) =>
    page.locator('input[type=file]').setInputFiles({ name: 'scan.png', mimeType: 'image/png', buffer });

  await give(sheet.bytes);
  await expect(page.getByText('mirrored once, as it should be')).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole('link', { name: sheet.id })).toBeVisible();

  await give(await sharp(sheet.bytes).flop().withMetadata({ density: 150 }).png().toBuffer());
  await expect(page.getByText('mirrored twice', { exact: true })).toBeVisible({ timeout: 30_000 });
  await expect(page.getByRole('heading', { level: 1 })).not.toHaveText('Is the printed sheet right?');

  await expectNoFaults(page);
  await page.getByRole('link', { name: sheet.id }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('handed.png on Ceramic tile, 108 mm');
});

test('a picture without marks is refused in words', async ({ page, picture }) => {
  await page.goto('/read-back');
  await page
    .locator('input[type=file]')
    .setInputFiles({ name: 'cat.png', mimeType: 'image/png', buffer: picture });
  await expect(page.getByRole('alert')).toContainText('What to do:', { timeout: 30_000 });
});
