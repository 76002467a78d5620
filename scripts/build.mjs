// @ts-check
// Builds dist/: the storeys file by file with esbuild, the kernels with AssemblyScript, the page with
// Vite. Types are checked by `npm run types`; building does not wait for that.
// Options: --no-web leaves the page out (tests that need no browser, and quick rounds).
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { build } from 'esbuild';

const withWeb = !process.argv.includes('--no-web');
const root = path.resolve(import.meta.dirname, '..');

/** @param {string} dir @returns {string[]} */
function sources(dir) {
  return readdirSync(path.join(root, dir), { recursive: true })
    .map((name) => path.join(dir, String(name)))
    .filter((name) => /\.ts$/.test(name) && !/\.test\.ts$|\.d\.ts$|[\\/]assembly[\\/]/.test(name))
    .filter((name) => statSync(path.join(root, name)).isFile());
}

const entryPoints = ['src/craft', 'src/kernels', 'src/shop', 'src/server', 'src/cli'].flatMap(sources);
if (entryPoints.length > 0) {
  const { outputFiles } = await build({
    write: false,
    absWorkingDir: root,
    entryPoints,
    outdir: 'dist',
    outbase: 'src',
    format: 'esm',
    platform: 'node',
    target: 'node20',
    sourcemap: true,
    logLevel: 'warning',
  });
  for (const file of outputFiles) putDown(file.path, file.contents);
}
await buildKernels();
if (withWeb) await buildPage();

/** Every src/kernels/assembly/*.ts that exports functions becomes dist/kernels/<name>.wasm. */
async function buildKernels() {
  const dir = path.join(root, 'src/kernels/assembly');
  const names = safeList(dir).filter((name) => name.endsWith('.ts'));
  if (names.length === 0) return;
  const asc = await import('assemblyscript/asc');
  for (const name of names) {
    const outFile = path.join('dist/kernels', name.replace(/\.ts$/, '.wasm'));
    const { error, stderr } = await asc.main(
      [
        path.join('src/kernels/assembly', name),
        '--outFile',
        outFile,
        '--config',
        'src/kernels/assembly/asconfig.json',
        '--baseDir',
        root,
        '--target',
        'release',
      ],
      {
        writeFile: (written, contents, base) => {
          putDown(
            path.resolve(base, written),
            typeof contents === 'string' ? Buffer.from(contents) : contents,
          );
        },
      },
    );
    if (error) {
      console.error(stderr.toString());
      throw error;
    }
  }
}

/**
 * Whole or not at all, and left alone when it is the same: a program that runs meanwhile, or a second build, never
 * finds half a file.
 * @param {string} file @param {Uint8Array} contents
 */
function putDown(file, contents) {
  if (existsSync(file) && readFileSync(file).equals(contents)) return;
  mkdirSync(path.dirname(file), { recursive: true });
  const temporary = `${file}.${process.pid}.part`;
  writeFileSync(temporary, contents);
  renameSync(temporary, file);
}

async function buildPage() {
  const vite = await import('vite');
  rmSync(path.join(root, 'dist/web'), { recursive: true, force: true });
  await vite.build({ configFile: path.join(root, 'vite.config.ts'), logLevel: 'warn' });
}

/** @param {string} dir */
function safeList(dir) {
  try {
    return readdirSync(dir);
  } catch {
    return [];
  }
}
