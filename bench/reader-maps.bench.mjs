// @ts-check
// From a reader's light to colour: ways to learn it beside each other on virtual scanners (spectra through a lamp and
// broad sensitivities, stray light, 8 bits), CIEDE2000 mean / 95 % on prints nobody learnt from. Then what each grade is
// worth, beside the published anchors.
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { bundleSimulator } from './lib/bundle-simulator.mjs';

const root = path.resolve(import.meta.dirname, '..');
const lab = await bundleSimulator(
  'reader-maps',
  `export * from './virtual-reader-comparison.js'; export * from './virtual-reader.js';
export { dyeOnCoating, otherColourants } from './virtual-printer.js'; export { deltaE00 } from '#craft/colour';
export { cardReaderMap, fitReaderMap, tagReaderMap } from '#craft/reader';
export { allMethods, learnBy, pairsOf } from '../../src/craft/reader/learn.js';`,
);

const models = process.env.BENCH_QUICK === undefined ? [0, 1, 2, 3, 4, 5] : [0, 1];
const scenes = ['white LED', 'cold cathode', 'xenon'].flatMap((lamp) =>
  models.map((model) => {
    const reader = lab.virtualReader(model, lamp);
    const printer = lab.dyeOnCoating(model + 1);
    const judged = lab.pairing(printer, reader, lab.judgedColours(200, 40 + model), 70 + model);
    return { model, reader, printer, judged };
  }),
);
/** @type {Record<string, unknown>} */
const results = {};
/** @param {number[]} errors */
const cell = (errors) => {
  const { meanDeltaE00, p95DeltaE00 } = lab.summary(errors.sort((a, b) => a - b));
  return `${meanDeltaE00.toFixed(2)} / ${p95DeltaE00.toFixed(2)}`;
};

console.log(`Ways to learn, ${scenes.length} scanners pooled:`);
console.log(['pairs'.padEnd(20), ...lab.allMethods.map((/** @type {string} */ m) => m.padEnd(12))].join(''));
/** @type {[string, number][]} */
const charts = [
  ['same ink', 24],
  ['same ink', 50],
  ['same ink', 100],
  ['same ink', 200],
  ['other colourants', 264],
];
for (const [name, count] of charts) {
  const cells = lab.allMethods.map((/** @type {string} */ method) => {
    const errors = scenes.flatMap(({ model, reader, printer, judged }) => {
      const source = name === 'same ink' ? printer : lab.otherColourants(model);
      const colours = lab.chartColours(Math.max(30, count), 5).slice(0, count);
      const learnt = lab.learnBy(method, lab.pairsOf(lab.pairing(source, reader, colours, 5).samples), 1);
      return learnt
        ? lab.errorsOf({ toLab: (/** @type {unknown[]} */ all) => all.map(learnt.fitted.at) }, judged)
        : [];
    });
    return errors.length > 0 ? cell(errors) : '–';
  });
  results[`${name} ${count}`] = cells;
  console.log(
    [`${name} ${count}`.padEnd(20), ...cells.map((/** @type {string} */ c) => c.padEnd(12))].join(''),
  );
}

console.log('\nWhat each grade is worth: real mean / 95 %, what it says of itself, what is published:');
/** @type {[string, (scene: typeof scenes[number]) => any, string][]} */
const grades = [
  [
    'B, same ink, 100 pairs',
    ({ reader, printer }) =>
      lab.fitReaderMap(lab.pairing(printer, reader, lab.chartColours(100, 6), 6).samples),
    'less than 1.7 (US 7,719,716)',
  ],
  [
    'B, target of 264',
    ({ model, reader }) =>
      lab.fitReaderMap(lab.pairing(lab.otherColourants(model), reader, lab.chartColours(264, 5), 5).samples, {
        by: 'target',
      }),
    '–',
  ],
  [
    'C, card of 24',
    ({ model, reader, printer }) =>
      lab.cardReaderMap(
        lab.pairing(lab.otherColourants(model), reader, lab.chartColours(30, 2).slice(0, 24), 5).samples,
        reader.see(printer.reflect([[1, 1, 1]]), 3)[0],
      ),
    'half of a phone’s more than 10',
  ],
  [
    'D, its own word',
    ({ reader, printer }) =>
      lab.tagReaderMap({ kind: 'scanner', groundRgb: reader.see(printer.reflect([[1, 1, 1]]), 3)[0] }),
    'more than 7 (US 7,719,716)',
  ],
];
for (const [name, learn, published] of grades) {
  const maps = scenes.map((scene) => ({ map: learn(scene), judged: scene.judged }));
  const real = cell(maps.flatMap(({ map, judged }) => lab.errorsOf(map, judged)));
  const mean = (/** @type {'meanDeltaE00' | 'p95DeltaE00'} */ which) =>
    maps.reduce((sum, { map }) => sum + map.expectedError[which], 0) / maps.length;
  const said = `${mean('meanDeltaE00').toFixed(2)} / ${mean('p95DeltaE00').toFixed(2)}`;
  results[name] = { real, said };
  console.log([name.padEnd(24), real.padEnd(14), said.padEnd(14), published].join(''));
}
writeFileSync(path.join(root, 'bench/out/reader-maps.json'), JSON.stringify(results, null, 2));
