// A press of five layers for ten minutes: milliseconds, and how far the usual steps and cells are from much finer ones.
// Reference of the machine: a fixed loop of arithmetic in the same run.
import { flatPressRun, type HeatResult, heatBand, materials, runHeat, startRecipe } from '#craft/heat';
import { interleaved, save } from './lib/measure.js';

const quick = process.env.BENCH_QUICK !== undefined;
const rounds = quick ? 3 : 31;

const slate = flatPressRun(
  { blank: { material: materials.slate, thicknessMm: 8 }, setC: 200, pressure: 'medium' },
  { dwellSeconds: 600 },
);
const plate = flatPressRun(
  { blank: { material: materials.aluminium, thicknessMm: 1.1 }, setC: 200, pressure: 'medium' },
  { dwellSeconds: 70 },
);
const pressCase = (run: typeof slate) => ({ run, pressPhase: 'press', dyeProbe: 'dye' });

let sink: unknown;
const timings = await interleaved(
  {
    'five layers, ten minutes': () => {
      sink = runHeat(slate);
    },
    'start recipe, 60 samples': () => {
      sink = startRecipe({ known: pressCase(plate), unknown: pressCase(slate), seed: 1 });
    },
    'band of 40 samples': () => {
      sink = heatBand({ run: slate, probe: 'dye', seed: 1 });
    },
    'control: 10 million multiplications': () => {
      let x = 1;
      for (let i = 0; i < 1e7; i += 1) x = (Math.imul(x, 1664525) + 1013904223) | 0;
      sink = x;
    },
  },
  rounds,
);

const lastOf = (result: HeatResult): number => result.probes.dye?.at(-1) ?? Number.NaN;
const usual = runHeat(slate);
const fine = runHeat(slate, { meshFactor: 8, stepToleranceK: 1e-5 });
const report = {
  timings,
  steps: usual.seconds.length,
  errorAtEndK: Math.abs(lastOf(usual) - lastOf(fine)),
  energyClosure: usual.energy.closure,
};
for (const [name, { medianMs, medianCpuMs }] of Object.entries(timings))
  console.log(`${name.padEnd(40)} ${medianMs.toFixed(1)} ms, processor ${medianCpuMs.toFixed(1)} ms`);
console.log(
  `${report.steps} steps; ${report.errorAtEndK.toExponential(1)} K from the fine run; energy closed to ${report.energyClosure.toExponential(1)}`,
);
if (sink === undefined) throw new Error('nothing was worked out');
save('heat', report);
