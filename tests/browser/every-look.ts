import type { Page } from '@playwright/test';
import { expectNoFaults } from './axe.js';
import { expect, test } from './shop.js';

/** Nothing runs off the side. */
export const expectFits = async (page: Page) =>
  expect(
    await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth),
  ).toBe(0);

/** Contrast hangs on the light, what runs off the side on the width: two walks see both of each. */
const looks = [
  { scheme: 'light', width: 375 },
  { scheme: 'dark', width: 1280 },
] as const;

/**
 * The walk over a place's pages in light and dark, at a desk's and a phone's width; `sound` holds each page to axe's
 * rules and to the window's width.
 */
export function inEveryLook(place: string, walk: (page: Page, sound: () => Promise<void>) => Promise<void>) {
  for (const { scheme, width } of looks) {
    test(`axe finds nothing and nothing runs off the side: ${place}, ${scheme}, ${width} wide`, async ({
      browser,
      shopUrl,
    }) => {
      const context = await browser.newContext({
        baseURL: shopUrl,
        colorScheme: scheme,
        viewport: { width, height: 812 },
        reducedMotion: 'reduce',
      });
      const page = await context.newPage();
      await walk(page, async () => {
        await expectNoFaults(page);
        await expectFits(page);
      });
      await context.close();
    });
  }
}
