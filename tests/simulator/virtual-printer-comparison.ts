/** Our model beside the usual ones, on the same virtual charts, judged on colours nobody fitted on. */
import type { MeasurementTable } from '#craft/cgats';
import { deltaE00 } from '#craft/colour';
import { fitInkModel } from '#craft/inkmodel';
import { choosePatches } from '#craft/testsheet';
import { heldOut, measured, type Triple, type VirtualPrinter } from './virtual-printer.js';
import {
  cubicRegression,
  gridPatches,
  type Learner,
  plainProcess,
  tetrahedral,
  thinPlate,
} from './virtual-printer-baselines.js';

export const noiseDeltaE = 0.4;

export interface Score {
  readonly method: string;
  readonly mean: number;
  readonly p95: number;
  readonly max: number;
}

export interface Comparison {
  readonly printer: string;
  readonly patches: number;
  readonly scores: readonly Score[];
  /** Of our model: share of true Lab coordinates within its 90 % interval, and of noisy readings within theirs. */
  readonly coverage: { readonly truth: number; readonly reading: number };
}

/** A table as a reader would hand it over. */
export function tableOf(rgb: readonly Triple[], lab: readonly Triple[]): MeasurementTable {
  return {
    device: { space: 'RGB', rows: rgb },
    lab,
    xyz: null,
    spectra: null,
    sdLab: null,
    sampleIds: rgb.map((_, i) => String(i + 1)),
    keywords: new Map(),
    remarks: [],
  };
}

/** Each size with each seed: a chart, its readings, the methods, the held-out colours. */
export function compareOn(
  printer: VirtualPrinter,
  patches: number,
  seeds: readonly number[],
  heldOutCount: number,
): Comparison {
  const errors = new Map<string, number[]>();
  const note = (method: string, values: number[]): void => {
    errors.set(method, (errors.get(method) ?? []).concat(values));
  };
  let within = 0;
  let withinReading = 0;
  let coordinates = 0;
  for (const seed of seeds) {
    const rgb = choosePatches(patches, seed).map((patch) => patch.rgb);
    const lab = measured(printer.print(rgb), noiseDeltaE, 1000 + seed);
    const test = heldOut(heldOutCount, 50_000 + seed);
    const truth = printer.print(test);
    const reading = measured(truth, noiseDeltaE, 90_000 + seed);
    const judge = (said: readonly Triple[]): number[] => said.map((v, i) => deltaE00(v, truth[i]!));
    const others: Record<string, Learner> = {
      cubic: cubicRegression,
      'thin plate': thinPlate,
      'plain GP': plainProcess,
    };
    for (const [method, learn] of Object.entries(others)) note(method, judge(learn(rgb, lab)(test)));
    // A grid needs a chart of its own: the largest that fits into as many patches.
    const grid = gridPatches(patches);
    const gridLab = measured(printer.print(grid.rgb), noiseDeltaE, 2000 + seed);
    note('grid', judge(tetrahedral(grid.rgb, gridLab)(test)));
    const model = fitInkModel(tableOf(rgb, lab));
    const said = model.predict(test);
    note('ours', judge(said.map((p) => p.lab)));
    said.forEach((p, i) => {
      for (let j = 0; j < 3; j += 1) {
        coordinates += 1;
        if (Math.abs(p.lab[j]! - truth[i]![j]!) <= 1.6449 * p.sdLab[j]!) within += 1;
        const sd = Math.hypot(p.sdLab[j]!, model.noiseSd[j]!);
        if (Math.abs(p.lab[j]! - reading[i]![j]!) <= 1.6449 * sd) withinReading += 1;
      }
    });
  }
  return {
    printer: printer.name,
    patches,
    scores: [...errors].map(([method, values]) => {
      values.sort((a, b) => a - b);
      return {
        method,
        mean: values.reduce((sum, v) => sum + v, 0) / values.length,
        p95: values[Math.floor(0.95 * values.length)]!,
        max: values.at(-1)!,
      };
    }),
    coverage: { truth: within / coordinates, reading: withinReading / coordinates },
  };
}
