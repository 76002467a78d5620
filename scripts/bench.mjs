// @ts-check
// Runs every bench/*.bench.ts (or .mjs), one after another, each in a process of its own; `npm run bench -- kernels`
// runs those whose name contains "kernels". They print to stdout and leave JSON in bench/out/.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';

const root = path.resolve(import.meta.dirname, '..');
const wanted = process.argv.slice(2).filter((word) => !word.startsWith('-'));

const entries = readdirSync(path.join(root, 'bench'), { recursive: true })
  .map(String)
  .filter((name) => /\.(ts|mjs)$/.test(name) && !name.startsWith('out'));
const benches = entries
  .filter((name) => /\.bench\.(ts|mjs)$/.test(name))
  .filter((name) => wanted.length === 0 || wanted.some((word) => name.includes(word)))
  .sort();
if (benches.length === 0) {
  console.error(
    `No bench is called that. There are: ${entries.filter((n) => n.includes('.bench.')).join(', ')}`,
  );
  process.exit(2);
}

const built = spawnSync(process.execPath, ['scripts/build.mjs', '--no-web'], { cwd: root, stdio: 'inherit' });
if (built.status !== 0) process.exit(1);
// Compiled into dist/bench, so that #craft/… and #kernels mean the built program.
await build({
  absWorkingDir: root,
  entryPoints: entries.filter((name) => name.endsWith('.ts')).map((name) => path.join('bench', name)),
  outdir: 'dist/bench',
  outbase: 'bench',
  format: 'esm',
  platform: 'node',
  target: 'node20',
  logLevel: 'warning',
});
mkdirSync(path.join(root, 'bench/out'), { recursive: true });

let failed = 0;
for (const name of benches) {
  console.log(`\n# ${name}`);
  const file = name.endsWith('.ts')
    ? path.join(root, 'dist/bench', name.replace(/\.ts$/, '.js'))
    : path.join(root, 'bench', name);
  const run = spawnSync(process.execPath, [file], { cwd: root, stdio: 'inherit' });
  if (run.status !== 0) failed += 1;
}
process.exit(failed === 0 ? 0 : 1);
