import type { Page } from '@playwright/test';
import { chooseAll, expect, test } from './shop.js';

test.use({ shopOf: 'placing' });

const field = (page: Page, label: string) => page.getByLabel(`${label}, millimetres`);
const read = async (page: Page, label: string) =>
  Number.parseFloat((await field(page, label).inputValue()).replace('\u2212', '-'));

test.beforeEach(async ({ page, picture }) => {
  await chooseAll(page, {
    picture,
    fileName: 'handed.png',
    blank: 'Ceramic tile, 152 mm',
    setup: 'Desktop printer, A4',
  });
  await page.getByLabel('How it is laid').getByText('Fit').click();
  await expect(field(page, 'Width')).toHaveValue(/^152/);
});

test('by keyboard: moves, sizes, turns, and comes back to the middle', async ({ page }) => {
  const stage = page.getByRole('application', { name: 'Artwork on the blank' });
  await page.getByLabel('How it is laid').getByText('Free').click();
  await stage.focus();
  for (let i = 0; i < 3; i += 1) await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Shift+ArrowUp');
  await expect(field(page, 'Right of middle')).toHaveValue(/^3\b/);
  await expect(field(page, 'Below middle')).toHaveValue(/^-10\b/);
  await page.keyboard.press('Shift+-');
  expect(await read(page, 'Width')).toBeCloseTo(152 / 1.1, 1);
  await page.keyboard.press(']');
  await expect(page.getByLabel('Turned, degrees clockwise')).toHaveValue('1°');
  await page.keyboard.press('0');
  await expect(field(page, 'Right of middle')).toHaveValue(/^0\b/);

  // What the server would make is what the page shows.
  const proposal = await page.waitForResponse(
    (response) =>
      response.url().endsWith('/api/sheets/proposal') &&
      response.request().postDataJSON().placement?.rotationDegrees === 1,
  );
  const { artwork } = await proposal.json();
  expect(artwork.widthMm).toBeCloseTo(await read(page, 'Width'), 1);
  expect(artwork.rotationDegrees).toBe(1);
});

test('by hand: dragging moves by the millimetres of the drawing, a corner sizes, the knob turns', async ({
  page,
}) => {
  await page.getByLabel('How it is laid').getByText('Free').click();
  const stage = page.getByRole('application', { name: 'Artwork on the blank' });
  await stage.scrollIntoViewIfNeeded();
  const box = (await stage.boundingBox())!;
  const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
  const corner = async () => {
    const grip = (await page.locator('[data-grip="size11"]').boundingBox())!;
    return { x: grip.x + grip.width / 2, y: grip.y + grip.height / 2 };
  };
  const pixelsPerMm = ((await corner()).x - middle.x) / 76;

  await page.mouse.move(middle.x, middle.y);
  await page.mouse.down();
  await page.mouse.move(middle.x + 20, middle.y + 10);
  await page.mouse.move(middle.x + 60, middle.y - 30);
  await page.mouse.up();
  expect(await read(page, 'Right of middle')).toBeCloseTo(60 / pixelsPerMm, 0);
  expect(await read(page, 'Below middle')).toBeCloseTo(-30 / pixelsPerMm, 0);

  await page.getByRole('button', { name: 'Centre' }).click();
  const from = await corner();
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  await page.mouse.move((from.x + middle.x) / 2, (from.y + middle.y) / 2, { steps: 4 });
  await page.mouse.up();
  expect(await read(page, 'Width')).toBeCloseTo(76, 0);

  const knob = (await page.locator('[data-grip="turn"]').boundingBox())!;
  const at = { x: knob.x + knob.width / 2, y: knob.y + knob.height / 2 };
  await page.mouse.move(at.x, at.y);
  await page.mouse.down();
  await page.mouse.move(middle.x + (middle.y - at.y), middle.y, { steps: 5 });
  await page.mouse.up();
  await expect(page.getByLabel('Turned, degrees clockwise')).toHaveValue('90°');
});

test('exact figures in inches', async ({ page }) => {
  await page.getByRole('radio', { name: 'inches' }).first().click({ force: true });
  await page.getByLabel('Width, inches').fill('4');
  await expect(page).toHaveURL(/placement=/);
  await page.getByRole('radio', { name: 'millimetres' }).first().click({ force: true });
  await expect(field(page, 'Width')).toHaveValue(/^101\.6/);
});
