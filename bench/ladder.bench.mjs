// @ts-check
// A ladder of 12 coupons in one scan: from the file to values to the window, against a plain decode of the same file by
// libvips (sharp to raw pixels). Medians of interleaved rounds; the threads are warm, as they are while a studio works,
// but each scan is another one, so that no fit is remembered.
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import sharp from 'sharp';
import { bundleSimulator } from './lib/bundle-simulator.mjs';

const root = path.resolve(import.meta.dirname, '..');
const sim = await bundleSimulator(
  'ladder-simulator',
  `export * from './index.js'; export { cutCoupon, pressedAt, scanOfCoupons } from './pressed-coupons.js';`,
);
const { interleaved, save } = await import(path.join(root, 'dist/bench/lib/measure.js'));
const { openShop } = await import('#shop');
const { readCouponsPicture } = await import('#shop/vision');

const rounds = process.env.BENCH_QUICK === undefined ? 5 : 2;
const ppi = 300;
const folder = mkdtempSync(path.join(tmpdir(), 'ladder-bench-'));
const shop = await openShop({ folder: path.join(folder, 'shop'), demo: false });
try {
  const sheet = await shop.testSheets.make(
    {
      kind: 'ladder',
      setupId: 'desktop-a4',
      blankId: 'aluminium-sheet-200x300',
      coupons: 12,
      factors: [
        { kind: 'time', low: 25, high: 90 },
        { kind: 'temperature', low: 190, high: 208 },
      ],
      start: { platenC: 200, dwellSeconds: 50 },
      limits: { platenC: [190, 208], dwellSeconds: [25, 90] },
    },
    { format: 'png' },
  );
  const drawn = sheet.files.find(({ kind }) => kind === 'sheet');
  const written = readFileSync((await shop.testSheets.openFile(sheet.id, drawn?.fileName ?? '')).path);
  const paper = await sim.writtenSheet(written, ppi);
  const { coupons } = await readCouponsPicture(written);
  const pieces = (sheet.ladder?.coupons ?? []).map(({ number, step }) => {
    const found = coupons.find((one) => one.number === number);
    return sim.pressedAt(sim.cutCoupon(paper, found?.reading?.outline), step);
  });
  // The first round warms up and does not count.
  const files = await Promise.all(
    Array.from({ length: rounds + 1 }, async (_, i) => {
      const file = path.join(folder, `scan-${i}.png`);
      const picture = sim.scanOfCoupons(pieces, sim.chanceOf(i + 1), i + 1);
      writeFileSync(file, await sim.toFile(picture, { format: 'png', ppi }));
      return file;
    }),
  );
  const { width = 0, height = 0 } = await sharp(files[0]).metadata();
  let decoded = 0;
  let read = 0;
  const times = await interleaved(
    {
      decode: async () =>
        void (await sharp(files[decoded++ % files.length])
          .raw()
          .toBuffer()),
      read: async () => {
        const file = files[read++ % files.length] ?? '';
        const ladder = await shop.ladders.read(file, { fileName: path.basename(file) });
        if (ladder.pictures.at(-1)?.coupons.length !== 12) throw new Error('coupons are missing');
        if (ladder.window === null) throw new Error(`no window: ${ladder.missing}`);
      },
    },
    rounds,
  );
  const { decode, read: all } = times;
  console.log(
    `12 coupons, time × temperature, ${width} × ${height} pixels PNG: decode ${decode.medianMs.toFixed(0)} ms, ` +
      `file to window ${all.medianMs.toFixed(0)} ms: ${(all.medianMs / decode.medianMs).toFixed(1)} × decode ` +
      `(best against best ${(all.fastestMs / decode.fastestMs).toFixed(1)}, processor time ${(all.medianCpuMs / decode.medianCpuMs).toFixed(1)})`,
  );
  save('ladder', { width, height, ...times });
} finally {
  await shop.close();
  rmSync(folder, { recursive: true, force: true });
}
