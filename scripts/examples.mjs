// @ts-check
// Makes examples/: simulated scans and photographs of the demo shop's own sheets, so that reading them can be
// tried with no printer at hand. Run again when the demo, a stock blank it uses or the marks change, since a sheet is
// named after all it is made from: npm run examples
import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { build } from 'esbuild';
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { colourSheetExamples } from './example-colour-sheet.mjs';
import { pressExamples } from './example-press.mjs';

const root = path.resolve(import.meta.dirname, '..');
const examples = path.join(root, 'examples');
// Scratch stands in the package, where the bundled simulator finds its libraries.
const scratch = path.join(root, 'node_modules/.cache/dyewright-examples');
const shopFolder = mkdtempSync(path.join(os.tmpdir(), 'dyewright-examples-'));

execFileSync(process.execPath, [path.join(root, 'scripts/build.mjs'), '--no-web'], { stdio: 'inherit' });
mkdirSync(scratch, { recursive: true });
mkdirSync(examples, { recursive: true });
try {
  const simulator = await loadSimulator();
  const { openShop } = await import('#shop');
  const shop = await openShop({ folder: shopFolder });
  try {
    await writeAll(simulator, shop);
  } finally {
    await shop.close();
  }
} finally {
  rmSync(scratch, { recursive: true, force: true });
  rmSync(shopFolder, { recursive: true, force: true });
}

/** @param {any} simulator @param {any} shop */
async function writeAll(simulator, shop) {
  const { drive, ink, scan, photograph, toFile, blank, fromBytes } = simulator;
  /** @param {string} artworkName @param {string} blankId @param {number} copies */
  const written = async (artworkName, blankId, copies) => {
    const artwork = (await shop.artwork.list()).find(
      (/** @type {any} */ one) => one.fileName === artworkName,
    );
    const request = {
      artworkId: artwork.id,
      blankId,
      setupId: 'demo-studio-a4',
      copies,
      placement: { mode: 'fill' },
    };
    const sheet = await shop.sheets.make(request, { format: 'pdf' }, { demo: true });
    const file = await shop.sheets.openFile(sheet.id, sheet.files[0].fileName);
    const { width, height, data } = await imageInPdf(file.path);
    return fromBytes(data, width, height, sheet.ppi);
  };
  const coaster = await written('regatta-coaster.png', 'slate-coaster-round-100', 2);
  const mug = await written('evening-on-the-marsh.png', 'mug-straight-330ml', 1);

  const scanned = { format: 'jpeg', quality: 72, ppi: 150 };
  const photo = { format: 'jpeg', quality: 62, camera: true };
  const files = {
    'coaster-scan-right.jpg': await toFile(
      scan(ink(coaster), { ppi: 150, turnDegrees: 0.8, seed: 1, dust: 25 }),
      scanned,
    ),
    'coaster-scan-mirrored-twice.jpg': await toFile(
      scan(ink(drive(coaster, { mirrors: true })), { ppi: 150, turnDegrees: 181, seed: 2, dust: 15 }),
      scanned,
    ),
    'mug-scan-fit-to-page.jpg': await toFile(
      scan(ink(drive(mug, { scaleAcross: 0.97, scaleAlong: 0.97 })), {
        ppi: 150,
        turnDegrees: -1.4,
        seed: 3,
        dust: 25,
      }),
      scanned,
    ),
    'mug-photo-right.jpg': await toFile(
      photograph(ink(mug), {
        widthPixels: 2100,
        heightPixels: 2800,
        tilt: 14,
        pan: -9,
        roll: 4,
        fill: 0.78,
        cast: [1, 0.95, 0.82],
        glare: 0.15,
        seed: 4,
      }),
      photo,
    ),
    'blank-page-scan.jpg': await toFile(
      scan(blank(1240, 1754, 150, [0.9, 0.9, 0.9]), { ppi: 75, seed: 5, dust: 8 }),
      { format: 'jpeg', quality: 60, ppi: 75 },
    ),
    ...(await colourSheetExamples(simulator, shop, imageInPdf)),
    ...(await pressExamples(simulator, shop)),
  };
  for (const [name, bytes] of Object.entries(files)) {
    writeFileSync(path.join(examples, name), bytes);
    console.log(`${name}  ${(bytes.length / 1024).toFixed(0)} kB`);
  }
}

/** The simulator is TypeScript of the test tree: bundled for this run only. */
async function loadSimulator() {
  const outfile = path.join(scratch, 'simulator.mjs');
  await build({
    absWorkingDir: root,
    entryPoints: ['tests/simulator/index.ts'],
    bundle: true,
    packages: 'external',
    conditions: ['source'],
    platform: 'node',
    format: 'esm',
    outfile,
    logLevel: 'warning',
  });
  return import(pathToFileURL(outfile).href);
}

/** The one picture of a sheet's PDF, as a viewer finds it: what the printer is given. @param {string} file */
async function imageInPdf(file) {
  const task = getDocument({ data: new Uint8Array(readFileSync(file)), verbosity: 0 });
  const page = await (await task.promise).getPage(1);
  const { fnArray, argsArray } = await page.getOperatorList();
  const painted = fnArray.flatMap((fn, i) => (fn === OPS.paintImageXObject ? [argsArray[i][0]] : []));
  if (painted.length !== 1) throw new Error(`one picture expected, ${painted.length} found`);
  const image = await new Promise((resolve) => page.objs.get(painted[0], resolve));
  const { width, height, data } = image;
  if (data.length !== width * height * 3) throw new Error('24-bit RGB expected');
  const copy = Uint8Array.from(data);
  await task.destroy();
  return { width, height, data: copy };
}
