// @ts-check
// `npm test`: everything, on a fresh clone too. Installs packages and Chromium where they are wanting, builds,
// runs the unit and whole-program tests (Vitest), then the page in Chromium (Playwright).
// Words after `npm test --` narrow the Vitest run; the browser tests are then left out.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { findOrInstallChromium, noChromium } from './chromium.mjs';
import { ensureBuilt, ensureInstalled, root, stop } from './ready.mjs';

const narrowed = process.argv.slice(2);
ensureInstalled();
const chromium = narrowed.length === 0 ? findOrInstallChromium() : undefined;
if (narrowed.length === 0 && chromium === undefined) stop(noChromium);
ensureBuilt();

const reports = mkdtempSync(path.join(tmpdir(), 'dyewright-test-'));
const unit = runTests(
  [
    'node_modules/vitest/vitest.mjs',
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${reports}/unit.json`,
    ...narrowed,
  ],
  {},
);
const unitCounts = countUnit(`${reports}/unit.json`);

let browser = 0;
let browserCounts = { passed: 0, failed: 0, skipped: 0 };
if (narrowed.length === 0) {
  browser = runTests(['node_modules/@playwright/test/cli.js', 'test', '--reporter=list,json'], {
    DYEWRIGHT_CHROMIUM: chromium,
    PLAYWRIGHT_JSON_OUTPUT_NAME: `${reports}/browser.json`,
  });
  browserCounts = countBrowser(`${reports}/browser.json`);
}
rmSync(reports, { recursive: true, force: true });

const passed = unitCounts.passed + browserCounts.passed;
const failed = unitCounts.failed + browserCounts.failed;
const skipped = unitCounts.skipped + browserCounts.skipped;
console.log(`\n${passed} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}`);
process.exit(unit === 0 && browser === 0 && failed === 0 && passed > 0 ? 0 : 1);

/** @param {string[]} args @param {NodeJS.ProcessEnv} env */
function runTests(args, env) {
  const done = spawnSync(process.execPath, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, ...env },
  });
  return done.status ?? 1;
}

/** @param {string} file */
function countUnit(file) {
  if (!existsSync(file)) return { passed: 0, failed: 1, skipped: 0 };
  const report = JSON.parse(readFileSync(file, 'utf8'));
  return { passed: report.numPassedTests, failed: report.numFailedTests, skipped: report.numPendingTests };
}

/** @param {string} file */
function countBrowser(file) {
  if (!existsSync(file)) return { passed: 0, failed: 1, skipped: 0 };
  const { stats } = JSON.parse(readFileSync(file, 'utf8'));
  return { passed: stats.expected + stats.flaky, failed: stats.unexpected, skipped: stats.skipped };
}
