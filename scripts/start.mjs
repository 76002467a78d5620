// @ts-check
// `npm start`: install, build, open the shop and serve the page on 127.0.0.1.
// Words after `npm start --` go to `dyewright serve` (--port, --shop, --no-open).
import { spawn } from 'node:child_process';
import { ensureBuilt, ensureInstalled, root } from './ready.mjs';

ensureInstalled();
ensureBuilt();
const served = spawn(process.execPath, ['dist/cli/main.js', 'serve', '--open', ...process.argv.slice(2)], {
  cwd: root,
  stdio: 'inherit',
});
for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM']))
  process.on(signal, () => served.kill(signal));
served.on('exit', (code) => process.exit(code ?? 0));
