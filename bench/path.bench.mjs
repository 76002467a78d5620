// @ts-check
// From a file of measured patches to a colour path as the program makes it: the file read, the model learnt, and an ICC
// profile with 33³ tables for three intents, its worker threads with it. Printers and readings are simulated.
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { bundleSimulator } from './lib/bundle-simulator.mjs';

const root = path.resolve(import.meta.dirname, '..');
const sim = await bundleSimulator(
  'path-simulator',
  `export { cgatsOf, measuredChart } from './measured-file.js'; export * from './virtual-printer.js';`,
);
const { closePathThreads, learnFrom } = await import(path.join(root, 'dist/shop/paths/index.js'));
const { parseProfile } = await import(path.join(root, 'dist/craft/icc/index.js'));

const quick = process.env.BENCH_QUICK !== undefined;
const printers = quick
  ? [await sim.halftoneCmyk()]
  : [await sim.halftoneCmyk(), await sim.driverSrgb(), sim.dyeOnCoating(0)];
const sizes = quick ? [150] : [150, 900];
const rounds = quick ? 1 : 3;
/** @type {unknown[]} */
const results = [];
console.log('Patches in a CGATS file → colour path with a three-intent 33³ profile, seconds (each round).');
try {
  for (const patches of sizes) {
    for (const printer of printers) {
      const file = Buffer.from(sim.cgatsOf(sim.measuredChart(printer, patches, 3)));
      const wall = [];
      for (let round = 0; round < rounds; round += 1) {
        const began = performance.now();
        const { icc } = await learnFrom(file, { name: 'bench', iccVersion: 4 }, new Date());
        wall.push((performance.now() - began) / 1000);
        const tags = [...parseProfile(icc).tags.keys()];
        for (const tag of ['A2B0', 'A2B1', 'A2B2', 'B2A0', 'B2A1', 'B2A2', 'gamt']) {
          if (!tags.includes(tag)) throw new Error(`the profile lacks ${tag}`);
        }
      }
      results.push({ patches, printer: printer.name, wall });
      console.log(
        `${String(patches).padStart(4)}  ${printer.name.padEnd(20)} ${wall.map((s) => s.toFixed(1)).join('  ')}`,
      );
    }
  }
} finally {
  await closePathThreads();
}
writeFileSync(path.join(root, 'bench/out/path.json'), JSON.stringify(results, null, 2));
