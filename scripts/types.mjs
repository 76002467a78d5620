// @ts-check
// Type-checks every storey with its own libraries: craft has neither Node nor the DOM.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';

const projects = [
  'src/craft',
  'src/kernels',
  'src/shop/contract',
  'src/shop',
  'src/server',
  'src/cli',
  'src/web',
  'tests',
].filter((dir) => existsSync(`${dir}/tsconfig.json`) && hasSource(dir));
const only = process.argv.slice(2);
let failed = 0;
for (const project of only.length > 0 ? only : projects) {
  const run = spawnSync(process.execPath, ['node_modules/typescript/bin/tsc', '-p', project], {
    stdio: 'inherit',
  });
  if (run.status !== 0) failed += 1;
}
console.log(failed === 0 ? 'types: sound' : `types: ${failed} project(s) with errors`);
process.exit(failed === 0 ? 0 : 1);

/** @param {string} dir */
function hasSource(dir) {
  return readdirSync(dir, { recursive: true }).some((name) => /\.tsx?$/.test(String(name)));
}
