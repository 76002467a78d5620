// @ts-check
// The demo shop's colour test sheet, printed, pressed, scanned, photographed beside a card and measured, all simulated.
// Part of scripts/examples.mjs.
import sharp from 'sharp';

const ppi = 150;

/**
 * @param {any} simulator @param {any} shop
 * @param {(file: string) => Promise<{width: number, height: number, data: Uint8Array}>} imageInPdf
 * @returns {Promise<Record<string, Uint8Array>>} files by name
 */
export async function colourSheetExamples(simulator, shop, imageInPdf) {
  const { halftoneWithSpectra, virtualReader, unevenPress, lightOfPiece, flatbed, fileOfReader } = simulator;
  const { withCardBeside, photograph, placeInPhotograph, measuredOnPiece, smaller } = simulator;
  const { demoTestSheet } = await import('#shop/demo');
  const sheet = await shop.testSheets.make(demoTestSheet, { format: 'pdf' });
  const drawn = sheet.files.find((/** @type {any} */ one) => one.kind === 'sheet');
  const { path } = await shop.testSheets.openFile(sheet.id, drawn.fileName);
  const { width, height, data } = await imageInPdf(path);
  const png = await sharp(data, { raw: { width, height, channels: 3 } })
    .png({ compressionLevel: 1 })
    .toBuffer();

  const printer = await halftoneWithSpectra();
  const dye = unevenPress(0.04, 35);
  const scanner = virtualReader(7, 'white LED');
  const phone = virtualReader(9, 'xenon');
  const scanned = flatbed(smaller(await lightOfPiece(png, 300, printer, scanner, dye), ppi), scanner, {
    turnDegrees: -1.1,
    vignetting: 0.06,
    noise: [0.001, 0.003],
    dust: 25,
    seed: 6,
  });
  const scene = withCardBeside(smaller(await lightOfPiece(png, 300, printer, phone, dye), ppi), phone, 3);
  const camera = {
    widthPixels: 2400,
    heightPixels: 2300,
    tilt: 6,
    pan: -5,
    roll: 1.5,
    fill: 0.9,
    cast: [1, 0.96, 0.86],
    vignetting: 0.18,
    noise: 0.004,
    blurPixels: 0.7,
    seed: 7,
  };
  const place = placeInPhotograph(scene.picture, camera);
  const corners = scene.corners.flatMap((/** @type {[number, number]} */ [x, y]) => place(x, y));
  console.log(`colour-sheet-photo.jpg  --card-corners ${corners.map((v) => v.toFixed(0)).join(',')}`);
  return {
    'colour-sheet-scan.jpg': await fileOfReader(scanned, scanner, 'jpeg', 92),
    'colour-sheet-photo.jpg': await fileOfReader(photograph(scene.picture, camera), phone, 'phone', 92),
    'colour-sheet-card.txt': scene.values,
    'colour-sheet-instrument.txt': measuredOnPiece(printer, dye, await shop.testSheets.orderOf(sheet.id), 8),
  };
}
