import { beforeAll, describe, expect, it } from 'vitest';
import { deltaE00, labFromSrgb, lchFromLab, oklabFromXyzD65, xyzD65FromD50, xyzFromLab } from '#craft/colour';
import {
  adaptInkModel,
  fitInkModel,
  type InkInverse,
  type InkModel,
  inkProfile,
  makeInkModel,
  makeInverse,
  readInkModelData,
} from '#craft/inkmodel';
import { createRandom } from '#craft/numerics';
import { isProblem } from '#craft/problem';
import { choosePatches } from '#craft/testsheet';
import {
  driverSrgb,
  dyeOnCoating,
  halftoneCmy,
  halftoneCmyk,
  heldOut,
  measured,
  type Triple,
  type VirtualPrinter,
} from './virtual-printer.js';
import { type Comparison, compareOn, noiseDeltaE, tableOf } from './virtual-printer-comparison.js';
import { byLittleCms } from './virtual-printer-icc.js';

const chartOf = (printer: VirtualPrinter, count: number, seed: number) => {
  const rgb = choosePatches(count, seed).map((patch) => patch.rgb);
  return { rgb, lab: measured(printer.print(rgb), noiseDeltaE, 300 + seed) };
};
const learnt = (printer: VirtualPrinter, count: number, seed = 1): InkModel => {
  const { rgb, lab } = chartOf(printer, count, seed);
  return fitInkModel(tableOf(rgb, lab));
};
const meanError = (model: InkModel, printer: VirtualPrinter): number => {
  const test = heldOut(300, 8);
  const truth = printer.print(test);
  return mean(model.predict(test).map((p, i) => deltaE00(p.lab, truth[i]!)));
};
const oklabHue = (lab: Triple): number => lchFromLab(oklabFromXyzD65(xyzD65FromD50(xyzFromLab(lab))))[2];
const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;

describe('the model beside cubic regression, grid, thin plate and plain Gaussian process', () => {
  const of = (comparison: Comparison, method: string): number =>
    comparison.scores.find((score) => score.method === method)!.mean;

  for (const [patches, most] of [
    [50, 1],
    [100, 0.6],
    [200, 0.4],
  ] as const) {
    it(`${patches} patches: held-out mean at most ${most} ΔE00 and better than all of them`, async () => {
      const rows = [await halftoneCmy(), await halftoneCmyk(), dyeOnCoating(0)].map((printer) =>
        compareOn(printer, patches, [21, 22], 300),
      );
      for (const row of rows) expect(of(row, 'ours'), row.printer).toBeLessThan(most);
      for (const method of ['cubic', 'grid', 'thin plate', 'plain GP']) {
        const ours = mean(rows.map((row) => of(row, 'ours')));
        expect(ours, method).toBeLessThan(mean(rows.map((row) => of(row, method))));
      }
      // 90 % intervals, pooled over printers and coordinates.
      const reading = mean(rows.map((row) => row.coverage.reading));
      expect(reading).toBeGreaterThan(0.85);
      expect(reading).toBeLessThan(0.95);
    });
  }

  it('a driver that maps colours itself is harder, and the model still the best', async () => {
    const row = compareOn(await driverSrgb(), 100, [21, 22], 300);
    for (const method of ['cubic', 'grid', 'thin plate', 'plain GP']) {
      expect(of(row, 'ours'), method).toBeLessThan(of(row, method));
    }
  });
});

describe('wrong patches', () => {
  it('are named, nearly all and nearly only they, and do little harm', async () => {
    const printer = await halftoneCmyk();
    const { rgb, lab } = chartOf(printer, 150, 3);
    const clean = fitInkModel(tableOf(rgb, lab));
    expect(clean.outliers.length).toBeLessThanOrEqual(1);
    const random = createRandom(5);
    const wrong = new Set<number>();
    while (wrong.size < 5) wrong.add(random.integer(150));
    // Two patches swapped, three read through dust or glare.
    const [one, two, ...others] = [...wrong];
    [lab[one!], lab[two!]] = [lab[two!]!, lab[one!]!];
    for (const i of others) lab[i] = [lab[i]![0] + 9, lab[i]![1] - 6, lab[i]![2] + 7];
    const table = tableOf(rgb, lab);
    const model = fitInkModel(table);
    const named = model.outliers.map((outlier) => outlier.index);
    expect(named.filter((i) => wrong.has(i)).length).toBeGreaterThanOrEqual(4);
    expect(named.filter((i) => !wrong.has(i)).length).toBeLessThanOrEqual(1);
    expect(model.outliers[0]!.sampleId).toBe(table.sampleIds[model.outliers[0]!.index]);
    expect(meanError(model, printer)).toBeLessThan(1.2 * meanError(clean, printer));
    expect(meanError(fitInkModel(table, { dropOutliers: false }), printer)).toBeGreaterThan(
      1.5 * meanError(model, printer),
    );
  });

  // Evenly strewn, they blow up the noise that is learnt so far that none stands out at first.
  it.each([20, 13])('every %i-th read wrongly: all are named, and do little harm', async (every) => {
    const printer = await halftoneCmyk();
    const { rgb, lab } = chartOf(printer, 100, 101);
    const clean = fitInkModel(tableOf(rgb, lab));
    const wrong = rgb.map((_, i) => i).filter((i) => i % every === 11);
    for (const i of wrong) lab[i] = [lab[i]![0] + (lab[i]![0] < 50 ? 15 : -20), lab[i]![1], lab[i]![2]];
    const model = fitInkModel(tableOf(rgb, lab));
    const named = model.outliers.map((outlier) => outlier.index);
    expect(named).toEqual(expect.arrayContaining(wrong));
    expect(named.length).toBeLessThanOrEqual(wrong.length + 2);
    expect(meanError(model, printer)).toBeLessThan(1.2 * meanError(clean, printer));
  });

  it('noisy patches, said to be so, weigh less', () => {
    const printer = dyeOnCoating(2);
    const rgb = choosePatches(80, 4).map((patch) => patch.rgb);
    const truth = printer.print(rgb);
    const rough = rgb.map((_, i) => i % 4 === 0);
    const lab = truth.map((v, i) => measured([v], rough[i] ? 4 : 0.4, 700 + i)[0]!);
    const sdLab = rough.map((is): [number, number, number] => (is ? [2.5, 2.5, 2.5] : [0.25, 0.25, 0.25]));
    const options = { dropOutliers: false };
    const told = fitInkModel({ ...tableOf(rgb, lab), sdLab }, options);
    const untold = fitInkModel(tableOf(rgb, lab), options);
    expect(meanError(told, printer)).toBeLessThan(0.75 * meanError(untold, printer));
  });
});

describe('a model', () => {
  it('adapts to another paper with 20 to 50 patches, better than from scratch', async () => {
    const old = await halftoneCmyk();
    const base = learnt(old, 200);
    // Yellower, darker at the light end, duller.
    const paper: VirtualPrinter = {
      name: 'other paper',
      print: (rgb) =>
        old
          .print(rgb)
          .map(([l, a, b]) => [
            6 + 0.9 * l - l * l * 0.0002,
            a * (0.8 + 0.001 * l) + 0.01 * l,
            0.88 * b + 0.04 * l,
          ]),
    };
    for (const count of [20, 50]) {
      const { rgb, lab } = chartOf(paper, count, 9);
      const adapted = adaptInkModel(base, tableOf(rgb, lab));
      expect(meanError(adapted, paper)).toBeLessThan(1);
      expect(meanError(adapted, paper)).toBeLessThan(0.7 * meanError(fitInkModel(tableOf(rgb, lab)), paper));
      const again = makeInkModel(JSON.parse(JSON.stringify(adapted.data)));
      expect(again.predict([[0.2, 0.5, 0.7]])).toEqual(adapted.predict([[0.2, 0.5, 0.7]]));
    }
  });

  it('is the same every time, and after a journey through JSON', () => {
    const first = learnt(dyeOnCoating(1), 60);
    const second = learnt(dyeOnCoating(1), 60);
    expect(second.data).toEqual(first.data);
    const test = heldOut(20, 3);
    expect(makeInkModel(JSON.parse(JSON.stringify(first.data))).predict(test)).toEqual(first.predict(test));
  });

  it('is looked over when it comes from JSON', () => {
    const whole = JSON.parse(JSON.stringify(learnt(dyeOnCoating(1), 40).data));
    expect(readInkModelData(whole)).toEqual(whole);
    for (const damage of [
      null,
      [],
      { ...whole, version: 2 },
      { ...whole, lab: whole.lab.slice(1) },
      { ...whole, rgb: [[0, 0], ...whole.rgb.slice(1)] },
      { ...whole, channels: whole.channels.slice(1) },
      { ...whole, noiseMultiple: whole.noiseMultiple.map(() => 0) },
      { ...whole, base: { ...whole, widening: ['1', 1, 1] } },
    ]) {
      expect(() => readInkModelData(damage)).toThrow(/damaged/);
    }
  });

  it('has a neutral axis that only rises', () => {
    for (const variant of [0, 4]) {
      const model = learnt(dyeOnCoating(variant), 40);
      const greys = Float64Array.from({ length: 3 * 256 }, (_, i) => Math.floor(i / 3) / 255);
      const lab = model.predictLab(greys);
      for (let i = 1; i < 256; i += 1) expect(lab[3 * i]!).toBeGreaterThan(lab[3 * i - 3]! - 1e-3);
    }
  });

  it('is refused in words for charts it cannot come from', () => {
    const { rgb, lab } = chartOf(dyeOnCoating(0), 30, 1);
    const table = tableOf(rgb, lab);
    const bad = [
      { ...table, device: { space: 'CMYK' as const, rows: rgb.map((v) => [...v, 0]) } },
      { ...table, lab: null },
      tableOf(rgb.slice(0, 5), lab.slice(0, 5)),
      tableOf(
        rgb.map(([r]): Triple => [r, 0.5, 0.5]),
        lab,
      ),
      tableOf(
        rgb,
        lab.map((v, i): Triple => (i === 3 ? [Number.NaN, 0, 0] : v)),
      ),
    ];
    for (const one of bad) {
      try {
        fitInkModel(one);
        expect.unreachable();
      } catch (error) {
        expect(isProblem(error) && error.code === 'chart.unusable' && error.remedy.length > 0).toBe(true);
      }
    }
  });
});

describe('the way back', () => {
  const made: { name: string; model: InkModel; inverse: InkInverse }[] = [];
  beforeAll(async () => {
    for (const printer of [await halftoneCmyk(), dyeOnCoating(0)]) {
      const model = learnt(printer, 150, 2);
      made.push({ name: printer.name, model, inverse: makeInverse(model) });
    }
  });

  it('returns to the colour it came from: mean at most 0.5, never above 1.5 ΔE00', () => {
    for (const { name, model, inverse } of made) {
      const wanted = model.predict(heldOut(300, 99)).map((p) => p.lab);
      const answers = inverse.invert(wanted);
      const misses = answers.map((answer) => answer.missDeltaE00);
      expect(mean(misses), name).toBeLessThan(0.05);
      expect(Math.max(...misses), name).toBeLessThan(1.5);
      expect(answers.filter((answer) => !answer.inGamut).length, name).toBeLessThanOrEqual(3);
      for (const answer of answers)
        expect(answer.expectedDeltaE00).toBeGreaterThanOrEqual(answer.missDeltaE00);
    }
  });

  it('knows what is out of reach, and keeps its hue in Oklab', () => {
    for (const { name, inverse } of made) {
      for (const rgb of [
        [0, 1, 0],
        [0, 0, 1],
        [0, 1, 1],
        [1, 0.2, 0],
      ] as const) {
        const wanted = labFromSrgb(rgb);
        const [answer] = inverse.invert([wanted]);
        expect(answer!.inGamut, name).toBe(false);
        expect(inverse.inGamut(wanted), name).toBe(false);
        expect(answer!.missDeltaE00).toBeGreaterThan(2);
        // Hue is kept as seen beside the paper, so in media-relative terms.
        const printed = inverse.colourOf(inverse.deviceFor('relative')(wanted));
        const turn = Math.abs(oklabHue(printed) - oklabHue(wanted));
        expect(Math.min(turn, 360 - turn), `${name} ${rgb}`).toBeLessThan(5);
      }
      expect(inverse.inGamut([55, 5, 5])).toBe(true);
    }
  });

  it('ramps through every intent neither jump nor band', () => {
    const ramps: [Triple, Triple][] = [
      [
        [0, 0, 0],
        [1, 1, 1],
      ],
      [
        [0, 0, 0],
        [0, 0, 1],
      ],
      [
        [0, 0, 1],
        [1, 1, 1],
      ],
      [
        [0, 0, 0],
        [1, 0, 0],
      ],
      [
        [0, 1, 0],
        [1, 1, 1],
      ],
      [
        [0, 1, 1],
        [1, 0, 1],
      ],
      [
        [0.5, 0.5, 0.5],
        [1, 0.5, 0],
      ],
      [
        [0.3, 0.2, 0.15],
        [1, 0.85, 0.75],
      ],
    ];
    for (const { name, inverse } of made) {
      for (const intent of ['perceptual', 'relative', 'saturation'] as const) {
        const device = inverse.deviceFor(intent);
        for (const [from, to] of ramps) {
          const lab = Array.from({ length: 256 }, (_, i) =>
            inverse.colourOf(
              device(
                labFromSrgb(from.map((v, k) => v + ((to[k]! - v) * i) / 255) as [number, number, number]),
              ),
            ),
          );
          for (let i = 1; i < 255; i += 1) {
            const bend = Math.hypot(
              ...[0, 1, 2].map((k) => lab[i + 1]![k]! - 2 * lab[i]![k]! + lab[i - 1]![k]!),
            );
            const step = Math.hypot(...[0, 1, 2].map((k) => lab[i]![k]! - lab[i - 1]![k]!));
            // Clipping has corners where a ramp leaves the gamut; smooth mapping has next to none.
            expect(bend, `${name} ${intent} ${from}→${to} at ${i}`).toBeLessThan(
              intent === 'relative' ? 2 : 1.2,
            );
            expect(step, `${name} ${intent} ${from}→${to} at ${i}`).toBeLessThan(2.5);
          }
        }
      }
    }
  });

  it('white is white and greys stay grey and in order', () => {
    for (const { name, inverse } of made) {
      for (const intent of ['perceptual', 'relative', 'saturation'] as const) {
        const device = inverse.deviceFor(intent);
        expect(Math.min(...device([100, 0, 0])), name).toBeGreaterThan(0.99);
        let last = -1;
        for (let l = 0; l <= 100; l += 2) {
          const [light, a, b] = inverse.colourOf(device([l, 0, 0]));
          expect(light).toBeGreaterThan(last - 0.05);
          if (l > 40) expect(Math.hypot(a, b), `${name} ${intent} L* ${l}`).toBeLessThan(0.5);
          last = light;
        }
      }
    }
  });

  it('becomes a profile in which Little CMS finds the model’s numbers, versions 2 and 4', async () => {
    const { model, inverse } = made[1]!;
    const test = heldOut(200, 4);
    for (const version of [2, 4] as const) {
      const bytes = inkProfile(model, {
        version,
        inverse,
        description: 'Virtual dye (invented)',
        copyright: 'No copyright, use freely',
        b2aGridPoints: version === 4 ? 33 : 9,
      });
      const referee = await byLittleCms(bytes);
      const seen = referee.toLab(test);
      const off = test.map((rgb, i) => deltaE00(seen[i]!, inverse.colourOf(rgb)));
      expect(mean(off)).toBeLessThan(0.1);
      expect(Math.max(...off)).toBeLessThan(0.5);
      if (version === 2) continue;
      // There and back through the exported tables, for colours well within reach.
      const inner = heldOut(200, 6).map(([r, g, b]): Triple => [0.1 + 0.8 * r, 0.1 + 0.8 * g, 0.1 + 0.8 * b]);
      const wanted = inner.map((rgb) => inverse.colourOf(rgb));
      const back = referee.toLab(referee.toDevice(wanted));
      const misses = wanted.map((lab, i) => deltaE00(lab, back[i]!));
      expect(mean(misses)).toBeLessThan(0.5);
      expect(Math.max(...misses)).toBeLessThan(3);
    }
  });
});
