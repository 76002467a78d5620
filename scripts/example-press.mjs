// @ts-check
// A ladder of coupons and an evenness sheet for the demo's print setup, printed, pressed on an invented press and scanned,
// all simulated. Part of scripts/examples.mjs. The orders are the demo's own, which the commands in examples/README.md repeat:
// a sheet is named after all it is made from, so demo and commands have the very sheets that the scans show.
import { readFileSync } from 'node:fs';

/** @param {any} simulator @param {any} shop @returns {Promise<Record<string, Uint8Array>>} files by name */
export async function pressExamples(simulator, shop) {
  const { demoPressSheets } = await import('#shop/demo');
  const [ladder, evenness] = demoPressSheets('demo-studio-a4');
  return {
    'ladder-scan.jpg': await ladderScan(simulator, shop, ladder),
    'evenness-scan.jpg': await evennessScan(simulator, shop, evenness),
  };
}

/** @param {any} simulator @param {any} shop @param {any} order */
async function written(simulator, shop, order) {
  const sheet = await shop.testSheets.make(order, { format: 'png' });
  const drawn = sheet.files.find((/** @type {any} */ one) => one.kind === 'sheet');
  const bytes = readFileSync((await shop.testSheets.openFile(sheet.id, drawn.fileName)).path);
  return { sheet, bytes, paper: await simulator.writtenSheet(bytes, sheet.ppi) };
}

/** Nine coupons, pressed from 35 to 105 s, lying anyhow. @param {any} simulator @param {any} shop @param {any} order */
async function ladderScan(simulator, shop, order) {
  const { chanceOf, cutCoupon, pressedAt, scanOfCoupons, toFile } = simulator;
  const { readCouponsPicture } = await import('#shop/vision');
  const { sheet, bytes, paper } = await written(simulator, shop, order);
  const { coupons } = await readCouponsPicture(bytes);
  const chance = chanceOf(41);
  const pieces = sheet.ladder.coupons.map((/** @type {any} */ { number, step }) => {
    const outline = coupons.find((one) => one.number === number)?.reading?.outline;
    return pressedAt(cutCoupon(paper, outline), {
      platenC: step.platenC + 0.4 * chance.normal(),
      dwellSeconds: step.dwellSeconds + 0.4 * chance.normal(),
    });
  });
  const seen = scanOfCoupons(pieces, chance, 8, { columns: 3, noise: 0.003 });
  return toFile(seen, { format: 'jpeg', quality: 88, ppi: sheet.ppi });
}

/** A platen cooler at its left, with a cold place at the back right. @param {any} simulator @param {any} shop @param {any} order */
async function evennessScan(simulator, shop, order) {
  const { barAt, celsiusAt, pressedSheet, scan, toFile, usualPlaten } = simulator;
  const { sheet, paper } = await written(simulator, shop, order);
  const face = { widthMm: sheet.widthMm, depthMm: sheet.heightMm };
  const coldSpot = { u: 0.5, v: -0.55, radiusMm: 18, lossK: 14 };
  const how = { ...usualPlaten, platenC: 192, dwellSeconds: 30, hotterRightK: 8, coldSpot };
  const piece = pressedSheet(paper, (/** @type {number} */ u, /** @type {number} */ v) => ({
    platenC: celsiusAt(how, u, v, face),
    dwellSeconds: how.dwellSeconds,
    pressureBar: barAt(how, u, v, face),
  }));
  const seen = scan(piece, { ppi: 150, turnDegrees: 0.9, dust: 20, noise: 0.004, seed: 9 });
  return toFile(seen, { format: 'jpeg', quality: 88, ppi: 150 });
}
