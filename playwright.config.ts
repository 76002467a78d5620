import { existsSync } from 'node:fs';
import { defineConfig } from '@playwright/test';

// DYEWRIGHT_CHROMIUM: which browser to use; otherwise Debian's where present, otherwise Playwright's own.
const debian = '/usr/bin/chromium';
const named = process.env.DYEWRIGHT_CHROMIUM;
const executablePath = named || (existsSync(debian) ? debian : undefined);

export default defineConfig({
  testDir: 'tests/browser',
  globalSetup: './tests/browser/fill-shop.ts',
  // Two cores, and a browser beside a server wants both: one file after the other.
  workers: 1,
  fullyParallel: false,
  timeout: 60_000,
  expect: { timeout: 10_000 },
  reporter: 'list',
  outputDir: 'test-results',
  use: {
    headless: true,
    viewport: { width: 1280, height: 900 },
    locale: 'en-GB',
    trace: 'retain-on-failure',
    launchOptions: {
      ...(executablePath ? { executablePath } : {}),
      args: [
        '--headless',
        '--no-sandbox',
        '--disable-gpu',
        '--no-first-run',
        '--disable-background-networking',
        '--disable-component-update',
        '--disable-sync',
        // WebGL without a graphics card.
        '--enable-unsafe-swiftshader',
      ],
    },
  },
});
