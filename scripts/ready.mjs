// @ts-check
// What both commands need first: the right Node, the packages of the lock file. Only Node's own modules here,
// because nothing is installed yet on a fresh clone.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';

export const root = path.resolve(import.meta.dirname, '..');

/** Install when node_modules does not belong to this lock file and this Node. */
export function ensureInstalled() {
  const [major = 0, minor = 0] = process.versions.node.split('.').map(Number);
  if (major < 20 || (major === 20 && minor < 19)) {
    stop(
      `Dyewright needs Node 20.19 or newer; this is ${process.version}. Install a newer Node and try again.`,
    );
  }
  const stamp = path.join(root, 'node_modules/.dyewright-installed');
  const wanted = createHash('sha256')
    .update(readFileSync(path.join(root, 'package-lock.json')))
    .update(process.versions.modules)
    .digest('hex');
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === wanted) return;
  console.log('Installing packages (once; a few minutes on a slow line) …');
  run(
    'npm',
    ['ci', '--no-audit', '--no-fund', '--loglevel=error'],
    'The packages could not be installed. Check the network and try again.',
  );
  writeFileSync(stamp, wanted);
}

/** Build when anything that goes into dist/ is newer than the last build. */
export function ensureBuilt() {
  const stamp = path.join(root, 'dist/.built');
  const inputs = ['src', 'data', 'package.json', 'vite.config.ts', 'scripts/build.mjs'];
  const newest = Math.max(...inputs.map((name) => newestChange(path.join(root, name))));
  if (existsSync(stamp) && statSync(stamp).mtimeMs > newest) return;
  console.log('Building …');
  run(process.execPath, ['scripts/build.mjs'], 'The build failed; the lines above say where.');
  writeFileSync(stamp, new Date().toISOString());
}

/** @param {string} command @param {string[]} args @param {string} whenItFails */
export function run(command, args, whenItFails) {
  const done = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    shell: process.platform === 'win32' && command === 'npm',
  });
  if (done.status !== 0) stop(whenItFails);
}

/** @param {string} sentence @returns {never} */
export function stop(sentence) {
  console.error(`\n${sentence}`);
  process.exit(1);
}

/** @param {string} place @returns {number} */
function newestChange(place) {
  if (!existsSync(place)) return 0;
  const facts = statSync(place);
  if (!facts.isDirectory()) return facts.mtimeMs;
  return Math.max(facts.mtimeMs, ...readdirSync(place).map((name) => newestChange(path.join(place, name))));
}
