import type { Page } from '@playwright/test';
import sharp from 'sharp';
import { chooseAll, expect, leading, test } from './shop.js';

test.use({ shopOf: 'piece' });

/** What is seen on the screen at a place of the piece's view, fractions of its box. */
async function seen(page: Page, x: number, y: number) {
  const shot = await page.getByRole('slider', { name: /as pressed/ }).screenshot();
  const { width, height } = await sharp(shot).metadata();
  const { data } = await sharp(shot)
    .extract({ left: Math.round(width * x) - 4, top: Math.round(height * y) - 4, width: 8, height: 8 })
    .resize(1, 1)
    .removeAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { r: data[0]!, g: data[1]!, b: data[2]! };
}

test('the mug wears the picture the right way round and turns by keys, hand and buttons', async ({
  page,
  picture,
}) => {
  await chooseAll(page, {
    picture,
    fileName: 'handed.png',
    blank: 'Mug, straight, 11 oz',
    setup: 'Desktop printer, A4',
  });
  const view = page.getByRole('slider', { name: /Mug, straight, 11 oz class as pressed/ });
  await expect(view).toBeVisible();
  await expect(view).toHaveAttribute('aria-valuetext', 'turned 42° to the left');
  await view.focus();
  for (let i = 0; i < 4; i += 1) await page.keyboard.press('ArrowRight');
  await expect(view).toHaveAttribute('aria-valuetext', 'turned 2° to the left');
  // Seen nearly from the front, opposite the handle: the artwork's middle, red to its left and blue to its right.
  await expect.poll(async () => leading(await seen(page, 0.44, 0.5))).toBe('red');
  expect(leading(await seen(page, 0.56, 0.5))).toBe('blue');

  await page.getByRole('button', { name: 'Turn right' }).click();
  await expect(view).toHaveAttribute('aria-valuetext', 'turned 28° to the right');
  const box = (await view.boundingBox())!;
  await page.mouse.move(box.x + 100, box.y + 100);
  await page.mouse.down();
  await page.mouse.move(box.x + 44, box.y + 100, { steps: 3 });
  await page.mouse.up();
  await expect(view).toHaveAttribute('aria-valuetext', 'seen from the front');
  await page.getByRole('button', { name: 'As at first' }).click();
  await expect(view).toHaveAttribute('aria-valuetext', 'turned 42° to the left');
});

test('a flat piece lies picture up, and the picture can be laid flat', async ({ page, picture }) => {
  await chooseAll(page, {
    picture,
    fileName: 'handed.png',
    blank: 'Slate coaster, square',
    setup: 'Desktop printer, A4',
  });
  await expect(page.getByRole('slider', { name: /Slate coaster, square/ })).toBeVisible();
  await expect.poll(async () => leading(await seen(page, 0.4, 0.48))).toBe('red');
  expect(leading(await seen(page, 0.6, 0.48))).toBe('blue');
  await page.getByText('Laid flat', { exact: true }).click();
  await expect(page.getByRole('img', { name: /as pressed, laid flat/ })).toBeVisible();
});
