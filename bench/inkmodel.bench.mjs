// @ts-check
// Ink model beside cubic regression, grid interpolation, thin plate and a plain Gaussian process, on virtual printers
// with 0.4 ΔE of noise: held-out ΔE00 mean / 95 % by number of patches. Then the time from 900 patches to a profile.
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { bundleSimulator } from './lib/bundle-simulator.mjs';

const root = path.resolve(import.meta.dirname, '..');
const lab = await bundleSimulator(
  'virtual-printer',
  `export * from './virtual-printer-comparison.js'; export * from './virtual-printer.js';
export { choosePatches } from '#craft/testsheet'; export { fitInkModel, inkProfile, makeInverse } from '#craft/inkmodel';`,
);

const quick = process.env.BENCH_QUICK !== undefined;
const sizes = quick ? [50, 100] : [30, 50, 100, 150, 300, 600, 900];
const seeds = quick ? [1] : [1, 2, 3];
const printers = [
  await lab.halftoneCmy(),
  await lab.halftoneCmyk(),
  await lab.driverSrgb(),
  lab.dyeOnCoating(0),
  lab.dyeOnCoating(1),
];
const methods = ['cubic', 'grid', 'thin plate', 'plain GP', 'ours'];
/** @type {unknown[]} */
const results = [];
console.log(
  'Held-out ΔE00 against the noiseless print, mean / 95 %; coverage of our 90 % intervals (truth, reading).',
);
console.log(['patches', 'printer'.padEnd(26), ...methods.map((m) => m.padEnd(11)), 'coverage'].join('  '));
for (const patches of sizes) {
  for (const printer of printers) {
    const row = lab.compareOn(printer, patches, patches > 300 ? seeds.slice(0, 1) : seeds, 400);
    results.push(row);
    const cells = methods.map((method) => {
      const score = row.scores.find((/** @type {{method: string}} */ s) => s.method === method);
      return `${score.mean.toFixed(2)} / ${score.p95.toFixed(2)}`.padEnd(11);
    });
    const covered = [row.coverage.truth, row.coverage.reading]
      .map((v) => `${(100 * v).toFixed(0)} %`)
      .join(' ');
    console.log([String(patches).padStart(7), printer.name.padEnd(26), ...cells, covered].join('  '));
  }
}

console.log(
  '\n900 patches → model → inverse → profile with 33³ tables for three intents, seconds (wall / processor):',
);
const rgb = lab.choosePatches(900, 3).map((/** @type {{rgb: unknown}} */ p) => p.rgb);
for (const printer of quick ? printers.slice(0, 1) : printers) {
  const table = lab.tableOf(rgb, lab.measured(printer.print(rgb), 0.4, 6));
  const began = performance.now();
  const cpu = process.cpuUsage();
  const model = lab.fitInkModel(table);
  const bytes = lab.inkProfile(model, { version: 4, description: 'bench', copyright: 'none' });
  const wall = (performance.now() - began) / 1000;
  const used = process.cpuUsage(cpu).user / 1e6;
  results.push({ printer: printer.name, wall, used, bytes: bytes.length });
  console.log(`${printer.name.padEnd(26)} ${wall.toFixed(1)} / ${used.toFixed(1)}  (${bytes.length} bytes)`);
}
writeFileSync(path.join(root, 'bench/out/inkmodel.json'), JSON.stringify(results, null, 2));
