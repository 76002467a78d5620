// @ts-check
import path from 'node:path';
import { build } from 'esbuild';

const root = path.resolve(import.meta.dirname, '../..');

/**
 * The simulator of the test tree, bundled so that a bench in plain JavaScript can use it.
 * @param {string} name of the bundle in dist/bench
 * @param {string} contents TypeScript that exports what is wanted, as if it stood in tests/simulator
 */
export async function bundleSimulator(name, contents) {
  const outfile = path.join(root, 'dist/bench', `${name}.js`);
  await build({
    absWorkingDir: root,
    stdin: { contents, resolveDir: path.join(root, 'tests/simulator'), loader: 'ts' },
    bundle: true,
    conditions: ['source'],
    external: ['sharp', 'lcms-wasm'],
    format: 'esm',
    platform: 'node',
    target: 'node20',
    outfile,
    logLevel: 'warning',
  });
  return import(outfile);
}
