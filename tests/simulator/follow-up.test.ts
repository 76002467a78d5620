import { describe, expect, it } from 'vitest';
import type { MeasurementTable } from '#craft/cgats';
import { deltaE00, labFromXyz, xyzFromLab } from '#craft/colour';
import { chooseFollowUp, fitInkModel, type InkModel, joinSheets } from '#craft/inkmodel';
import { createRandom } from '#craft/numerics';
import { choosePatches } from '#craft/testsheet';
import {
  dyeOnCoating,
  halftoneCmyk,
  heldOut,
  measured,
  type Triple,
  type VirtualPrinter,
} from './virtual-printer.js';
import { noiseDeltaE, tableOf } from './virtual-printer-comparison.js';

const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

function meanError(model: InkModel, printer: VirtualPrinter, rgb: readonly Triple[]): number {
  const truth = printer.print(rgb);
  return mean(model.predict(rgb).map((said, i) => deltaE00(said.lab, truth[i]!)));
}

const read = (printer: VirtualPrinter, rgb: readonly Triple[], seed: number): MeasurementTable =>
  tableOf(rgb, measured(printer.print(rgb), noiseDeltaE, seed));

const both = (one: MeasurementTable, two: MeasurementTable): MeasurementTable =>
  tableOf([...one.device.rows, ...two.device.rows] as unknown as Triple[], [
    ...(one.lab ?? []),
    ...(two.lab ?? []),
  ]);

/** Uniform device colours: what a follow-up without any thought would be. */
function atRandom(count: number, seed: number): Triple[] {
  const random = createRandom(seed);
  const code = (): number => Math.round(255 * random.uniform()) / 255;
  return Array.from({ length: count }, (): Triple => [code(), code(), code()]);
}

/** Device colours of an invented artwork: dusky blues and greens. */
function duskyBlues(seed: number): { rgb: Triple; weight: number }[] {
  const random = createRandom(seed);
  return Array.from({ length: 60 }, () => ({
    rgb: [
      0.1 + 0.3 * random.uniform(),
      0.15 + 0.3 * random.uniform(),
      0.35 + 0.4 * random.uniform(),
    ] as Triple,
    weight: 0.2 + random.uniform(),
  }));
}

describe('150 patches and 40 more', () => {
  const rows: Record<'none' | 'doubt' | 'random' | 'artwork', { all: number[]; artwork: number[] }> = {
    none: { all: [], artwork: [] },
    doubt: { all: [], artwork: [] },
    random: { all: [], artwork: [] },
    artwork: { all: [], artwork: [] },
  };

  it('where the model is least sure serve the whole better than anywhere; near an artwork, the artwork', async () => {
    for (const [printer, seeds] of [
      [await halftoneCmyk(), [1, 2]],
      [dyeOnCoating(0), [1]],
    ] as const) {
      for (const seed of seeds) {
        const first = read(
          printer,
          choosePatches(150, seed).map((patch) => patch.rgb),
          300 + seed,
        );
        const model = fitInkModel(first);
        const crowd = duskyBlues(50 + seed);
        const test = heldOut(300, 8);
        const note = (kind: keyof typeof rows, more: readonly Triple[]): void => {
          const learnt =
            more.length === 0 ? model : fitInkModel(both(first, read(printer, more, 700 + seed)));
          rows[kind].all.push(meanError(learnt, printer, test));
          rows[kind].artwork.push(
            meanError(
              learnt,
              printer,
              crowd.map((one) => one.rgb),
            ),
          );
        };
        const chosen = chooseFollowUp(model, { count: 40, seed });
        expect(chosen).toHaveLength(40);
        expect(new Set(chosen.map((rgb) => rgb.join())).size).toBe(40);
        expect(chooseFollowUp(model, { count: 40, seed })).toEqual(chosen);
        note('none', []);
        note('doubt', chosen);
        note('random', atRandom(40, 90 + seed));
        note('artwork', chooseFollowUp(model, { count: 40, seed, crowd }));
      }
    }
    expect(mean(rows.doubt.all)).toBeLessThan(mean(rows.random.all));
    expect(mean(rows.doubt.all)).toBeLessThan(0.95 * mean(rows.none.all));
    expect(mean(rows.artwork.artwork)).toBeLessThan(0.8 * mean(rows.none.artwork));
    expect(mean(rows.artwork.artwork)).toBeLessThan(mean(rows.doubt.artwork));
  }, 240_000);
});

describe('a follow-up sheet that came out a little otherwise', () => {
  const printer = dyeOnCoating(0);
  /** The same dyes another day. */
  const others: Record<string, (lab: Triple) => Triple> = {
    'reader a little brighter and warmer': (lab) => {
      const [x, y, z] = xyzFromLab(lab);
      return labFromXyz([1.04 * x, 1.03 * y, 0.99 * z]);
    },
    'pressed a little weaker': (lab) => {
      const [x, y, z] = xyzFromLab(lab);
      // Densities 4 % less.
      return labFromXyz([0.9642 * (x / 0.9642) ** 0.96, y ** 0.96, 0.8249 * (z / 0.8249) ** 0.96]);
    },
    'all alike': (lab) => lab,
  };

  it.each(Object.keys(others))(
    '%s: joined, it does no harm',
    (name) => {
      const change = others[name]!;
      const errors: Record<'alone' | 'joined' | 'plain', number[]> = { alone: [], joined: [], plain: [] };
      const test = heldOut(300, 8);
      for (const seed of [3]) {
        const first = read(
          printer,
          choosePatches(80, seed).map((patch) => patch.rgb),
          900 + seed,
        );
        const model = fitInkModel(first);
        const rgb = chooseFollowUp(model, { count: 30, seed });
        // Controls stand on every sheet.
        const withControls: Triple[] = [
          ...rgb,
          ...[0, 0.5, 1].flatMap((v): Triple[] => Array.from({ length: 4 }, () => [v, v, v])),
        ];
        const second = tableOf(
          withControls,
          measured(printer.print(withControls).map(change), noiseDeltaE, 950 + seed),
        );
        const { table, shifts } = joinSheets([first, second], fitInkModel);
        expect(table.sampleIds).toHaveLength(80 + 42);
        if (name === 'all alike') expect(shifts.every((one) => one.meanDeltaE00 < 0.4)).toBe(true);
        else expect(shifts[0]!.meanDeltaE00).toBeGreaterThan(0.4);
        errors.alone.push(meanError(model, printer, test));
        errors.joined.push(meanError(fitInkModel(table), printer, test));
        errors.plain.push(meanError(fitInkModel(both(first, second)), printer, test));
      }
      expect(mean(errors.joined)).toBeLessThan(1.02 * mean(errors.alone));
      if (name === 'all alike') expect(mean(errors.joined)).toBeLessThan(1.1 * mean(errors.plain));
      else expect(mean(errors.joined)).toBeLessThan(0.95 * mean(errors.plain));
    },
    120_000,
  );
});
