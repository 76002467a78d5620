// @ts-check
// Finds a Chromium for the browser tests, or installs Debian's where that can be done without asking.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';

const places = [
  process.env.DYEWRIGHT_CHROMIUM,
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** @returns {string | undefined} the program's path */
export function findChromium() {
  return places.find((place) => place !== undefined && place !== '' && existsSync(place));
}

/** @returns {string | undefined} */
export function findOrInstallChromium() {
  const found = findChromium();
  if (found !== undefined) return found;
  const root = process.getuid?.() === 0;
  if (root && existsSync('/usr/bin/apt-get')) {
    console.log('Installing Chromium for the browser tests (apt-get install chromium) …');
    const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
    spawnSync('apt-get', ['update', '-qq'], { stdio: 'inherit', env });
    spawnSync('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], {
      stdio: 'inherit',
      env,
    });
  }
  return findChromium();
}

export const noChromium =
  'The browser tests need Chromium and none was found. Install it (Debian: sudo apt-get install chromium) or set ' +
  'DYEWRIGHT_CHROMIUM to the path of a Chromium or Chrome, and run npm test again.';
