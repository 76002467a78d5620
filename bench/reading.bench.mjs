// @ts-check
// A 600-ppi A4 scan of a colour test sheet, read from its file: how often does a plain decode of the same file (sharp to
// raw pixels) go into that? And an ordinary sheet read back. Medians of interleaved rounds; the reader's thread is warm,
// as it is while a studio works. A share of a whole run is decoding, so 1 would be reading in no time at all.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { build } from 'esbuild';
import sharp from 'sharp';

const root = path.resolve(import.meta.dirname, '..');
const outfile = path.join(root, 'dist/bench/reading-simulator.js');
await build({
  absWorkingDir: root,
  stdin: {
    contents: `export * from './index.js'; export { vignetted, writeChart } from './chart.js'; export { writeSheet } from './cases.js';`,
    resolveDir: path.join(root, 'tests/simulator'),
    loader: 'ts',
  },
  bundle: true,
  conditions: ['source'],
  external: ['sharp', 'qrcode-generator'],
  format: 'esm',
  platform: 'node',
  target: 'node20',
  outfile,
  logLevel: 'warning',
});
const sim = await import(outfile);
const { interleaved, save } = await import(path.join(root, 'dist/bench/lib/measure.js'));
const { closeVision, readChartPicture, readSheetPicture } = await import(
  path.join(root, 'dist/shop/vision/index.js')
);

const rounds = process.env.BENCH_QUICK === undefined ? 7 : 2;
const folder = mkdtempSync(path.join(tmpdir(), 'reading-bench-'));
/** @type {Record<string, unknown>} */
const figures = {};
try {
  const chart = await sim.writeChart({ widthMm: 210, heightMm: 297, count: 300, seed: 11, ppi: 300 });
  const chartFiles = await scans(chart.picture, 'chart');
  console.log(`Colour test sheet, ${chart.layout.patches.length} patches, A4 at 600 ppi`);
  for (const file of chartFiles) {
    await compare(file, 'chart', async () => {
      const { reading } = await readChartPicture(file.path);
      if (reading.patches.length !== chart.layout.patches.length) throw new Error('patches are missing');
    });
  }
  const sheet = await sim.writeSheet(3, { widthMm: 210, heightMm: 297, ppi: 300, mirror: true });
  console.log('Ordinary sheet read back, A4 at 600 ppi');
  for (const file of await scans(sheet.picture, 'sheet')) {
    await compare(file, 'sheet', async () => {
      const reading = await readSheetPicture(file.path, { subject: 'piece' });
      if (reading.sheetId !== sheet.sheetId) throw new Error('the sheet was not known');
    });
  }
} finally {
  await closeVision();
  rmSync(folder, { recursive: true, force: true });
}
save('reading', figures);

/**
 * @param {{name: string, path: string}} file
 * @param {string} what
 * @param {() => Promise<void>} read
 */
async function compare(file, what, read) {
  const times = await interleaved(
    { decode: async () => void (await sharp(file.path).raw().toBuffer()), read },
    rounds,
  );
  const { decode, read: all } = times;
  figures[`${what} ${file.name}`] = times;
  console.log(
    `  ${file.name.padEnd(18)} decode ${decode.medianMs.toFixed(0).padStart(5)} ms, read ${all.medianMs.toFixed(0).padStart(5)} ms: ` +
      `${(all.medianMs / decode.medianMs).toFixed(2)} × decode (best against best ${(all.fastestMs / decode.fastestMs).toFixed(2)}, ` +
      `processor time ${(all.medianCpuMs / decode.medianCpuMs).toFixed(2)})`,
  );
}

/**
 * The pressed piece on the glass, simulated at 300 ppi and enlarged, with the scanner's own grain at 600 ppi.
 * @param {unknown} picture
 * @param {string} name
 */
async function scans(picture, name) {
  const seen = sim.vignetted(
    sim.scan(sim.press(sim.ink(picture)), {
      ppi: 300,
      turnDegrees: 0.6,
      marginMm: 0,
      dust: 60,
      seed: 3,
      noise: 0.004,
    }),
    0.12,
  );
  const { data, info } = await sharp(sim.toBytes(seen), {
    raw: { width: seen.width, height: seen.height, channels: 3 },
  })
    .resize(2 * seen.width, 2 * seen.height, { kernel: 'cubic' })
    .raw()
    .toBuffer({ resolveWithObject: true });
  let state = 1;
  for (let i = 0; i < data.length; i += 1) {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    const grain = (state >>> 30) + ((state >>> 28) & 3) - 3;
    data[i] = Math.min(255, Math.max(0, data[i] + grain));
  }
  const scan = () =>
    sharp(data, { raw: { width: info.width, height: info.height, channels: 3 } }).withMetadata({
      density: 600,
    });
  const tiff = { xres: 600 / 25.4, yres: 600 / 25.4 };
  /** @type {[string, string, Buffer][]} */
  const files = [
    ['PNG', 'png', await scan().png({ compressionLevel: 6 }).toBuffer()],
    [
      'TIFF, LZW',
      'lzw.tif',
      await scan()
        .tiff({ ...tiff, compression: 'lzw' })
        .toBuffer(),
    ],
    [
      'TIFF, uncompressed',
      'plain.tif',
      await scan()
        .tiff({ ...tiff, compression: 'none' })
        .toBuffer(),
    ],
    ['JPEG', 'jpg', await scan().jpeg({ quality: 92 }).toBuffer()],
  ];
  return files.map(([label, ending, bytes]) => {
    const file = path.join(folder, `${name}.${ending}`);
    writeFileSync(file, bytes);
    return { name: label, path: file };
  });
}
