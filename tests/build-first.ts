import { execFileSync } from 'node:child_process';

/** Worker threads and the command line run from dist/, so it is made fresh before any test. */
export default function buildFirst(): void {
  execFileSync(process.execPath, ['scripts/build.mjs', '--no-web'], { stdio: 'inherit' });
}
