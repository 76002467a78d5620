import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { test as base, expect, type Locator, type Page } from '@playwright/test';
import sharp from 'sharp';
import { filledShop, serveShop } from './serve-shop.js';

/**
 * A shop of its own for each file of tests, filled with the demonstration and served by the program itself; a file
 * names it by `test.use({ shopOf: … })`, so that nothing one file does shows in another.
 */
export const test = base.extend<{ picture: Buffer }, { shopOf: string; shopUrl: string }>({
  shopOf: ['', { option: true, scope: 'worker' }],
  shopUrl: [
    async ({ shopOf }, use) => {
      const filled = process.env[filledShop];
      if (!filled) throw new Error('The shop to copy was not prepared.');
      const folder = mkdtempSync(path.join(tmpdir(), `dyewright-browser-${shopOf}-`));
      cpSync(filled, folder, { recursive: true });
      const shop = await serveShop(folder);
      await use(shop.url);
      await shop.close();
      rmSync(folder, { recursive: true, force: true });
    },
    { scope: 'worker', timeout: 60_000 },
  ],
  baseURL: async ({ shopUrl }, use) => use(shopUrl),
  /** Left half red, right half blue, with a green band along the foot: any turning or mirroring shows. */
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads the parameter's pattern
  picture: async ({}, use) => use(await handedPicture(1600, 1600)),
});

export { expect };

export async function handedPicture(width: number, height: number): Promise<Buffer> {
  const half = Math.round(width / 2);
  const foot = Math.round(height / 5);
  return sharp({ create: { width, height, channels: 3, background: { r: 200, g: 30, b: 30 } } })
    .composite([
      {
        input: { create: { width: width - half, height, channels: 3, background: { r: 30, g: 30, b: 200 } } },
        left: half,
        top: 0,
      },
      {
        input: { create: { width, height: foot, channels: 3, background: { r: 20, g: 150, b: 40 } } },
        left: 0,
        top: height - foot,
      },
    ])
    .png()
    .toBuffer();
}

/** Let a file fall on the page, as a hand would drag it from the desktop: the whole page takes it. */
export async function dropFile(page: Page, file: { name: string; type: string; bytes: Buffer }) {
  const transfer = await page.evaluateHandle(
    ({ name, type, base64 }) => {
      const data = new DataTransfer();
      data.items.add(new File([Uint8Array.from(atob(base64), (c) => c.charCodeAt(0))], name, { type }));
      return data;
    },
    { name: file.name, type: file.type, base64: file.bytes.toString('base64') },
  );
  await page.locator('body').dispatchEvent('dragenter', { dataTransfer: transfer });
  const overlay = page.getByText('Let go to use this artwork.');
  await expect(overlay).toBeVisible();
  await page.locator('h1').dispatchEvent('dragover', { dataTransfer: transfer });
  await page.locator('h1').dispatchEvent('drop', { dataTransfer: transfer });
  await expect(overlay).toBeHidden();
}

/** Mean colour of a part of an image on the page; the part in fractions of its width and height. */
export async function colourAt(image: Locator, x: number, y: number, size = 0.06) {
  return image.evaluate(
    async (element, part) => {
      const source = element as HTMLImageElement | HTMLCanvasElement;
      if (source instanceof HTMLImageElement) await source.decode();
      const width = source instanceof HTMLImageElement ? source.naturalWidth : source.width;
      const height = source instanceof HTMLImageElement ? source.naturalHeight : source.height;
      const canvas = document.createElement('canvas');
      canvas.width = width;
      canvas.height = height;
      const context = canvas.getContext('2d');
      if (!context) throw new Error('no canvas');
      context.drawImage(source, 0, 0);
      const w = Math.max(1, Math.round(width * part.size));
      const h = Math.max(1, Math.round(height * part.size));
      const { data } = context.getImageData(
        Math.round(width * part.x - w / 2),
        Math.round(height * part.y - h / 2),
        w,
        h,
      );
      const sum = [0, 0, 0];
      for (let i = 0; i < data.length; i += 4) for (let c = 0; c < 3; c += 1) sum[c]! += data[i + c]!;
      return { r: sum[0]! / (w * h), g: sum[1]! / (w * h), b: sum[2]! / (w * h) };
    },
    { x, y, size },
  );
}

export const leading = (colour: { r: number; g: number; b: number }) =>
  colour.r > colour.g && colour.r > colour.b ? 'red' : colour.b > colour.g ? 'blue' : 'green';

/** Artwork, blank and setup chosen through the page. */
export async function chooseAll(
  page: Page,
  choice: { picture: Buffer; fileName: string; blank: string; setup: string },
) {
  await page.goto('/');
  await expect(page.getByText('Drop artwork here')).toBeVisible();
  await dropFile(page, { name: choice.fileName, type: 'image/png', bytes: choice.picture });
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('What will it be pressed on?');
  await page.getByRole('button', { name: choice.blank }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText('Which printer and paper?');
  await page.getByRole('button', { name: choice.setup }).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(/^(Ready to print|Not ready)/);
}
