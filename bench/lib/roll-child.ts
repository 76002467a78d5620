// Makes one roll sheet and says, as JSON, what it took: started by roll.bench in a process of its own, so that the peak
// is this sheet's alone, libvips and the worker threads included.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { makeSheetFile, probeArtwork } from '#shop/render';
import { wholeSheet } from './sheet-artwork.js';

const [format, artworkPath, rotation] = process.argv.slice(2) as ['pdf' | 'png' | 'tiff', string, string];
const folder = mkdtempSync(path.join(tmpdir(), 'roll-'));
try {
  const artworkFacts = await probeArtwork(artworkPath);
  const before = process.resourceUsage().maxRSS / 1024;
  const start = performance.now();
  const plan = wholeSheet(600, 5000);
  const turned = Number(rotation);
  const pieces = plan.pieces.map((piece) => ({
    ...piece,
    artwork:
      turned === 90 ? { ...piece.artwork, widthMm: 5000, heightMm: 600, rotationDegrees: 90 } : piece.artwork,
  }));
  // A made-up grid: any link costs the memory of its table, about this much.
  const table = new Uint16Array(33 ** 3 * 3);
  for (let i = 0; i < 33 ** 3; i += 1) {
    table.set(
      [Math.floor(i / 1089), Math.floor(i / 33) % 33, i % 33].map((v) => Math.round((v / 32) * 65535)),
      i * 3,
    );
  }
  const result = await makeSheetFile({
    plan: { ...plan, pieces },
    ppi: 300,
    artworkPath,
    artworkFacts,
    link: {
      kind: 'grid',
      inputChannels: 3,
      gridPoints: 33,
      inputCurves: null,
      table,
      error8: { mean: 0, max: 0 },
    },
    output: { format, bitsPerSample: 8, colourTag: 'device' },
    outPath: path.join(folder, `roll.${format}`),
    tempFolder: folder,
  });
  const seconds = (performance.now() - start) / 1000;
  const peakMiB = process.resourceUsage().maxRSS / 1024;
  console.log(JSON.stringify({ ...result, seconds, beforeMiB: before, peakMiB }));
} finally {
  rmSync(folder, { recursive: true, force: true });
}
