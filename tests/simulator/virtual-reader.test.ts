import { describe, expect, it } from 'vitest';
import type { Triple } from '#craft/colour';
import { isProblem } from '#craft/problem';
import { cardReaderMap, fitReaderMap, makeReaderMap, type ReaderSample, tagReaderMap } from '#craft/reader';
import { dyeOnCoating, otherColourants } from './virtual-printer.js';
import { virtualReader } from './virtual-reader.js';
import { chartColours, errorsOf, judgedColours, pairing, summary } from './virtual-reader-comparison.js';

/** The rule for other colourants was set on odd numbers; these are even. */
const scenes = (['white LED', 'cold cathode', 'xenon'] as const).flatMap((lamp) =>
  [0, 2, 4].map((model) => ({ reader: virtualReader(model, lamp), printer: dyeOnCoating(model + 1), model })),
);
const mean = (values: readonly number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
const scene = scenes[1]!;
const same = pairing(scene.printer, scene.reader, chartColours(120, 5), 5).samples;
const judgedOf = ({ reader, printer, model }: (typeof scenes)[number]) =>
  pairing(printer, reader, judgedColours(200, 40 + model), 70 + model);

describe('calibrated on pressed samples of the same ink (grade B)', () => {
  it('errs by less than 1.7, as published for calibration on the same printer, paper and ink (US 7,719,716)', () => {
    const rows = scenes.map((one) => {
      const map = fitReaderMap(pairing(one.printer, one.reader, chartColours(100, 6), 6).samples);
      return { real: summary(errorsOf(map, judgedOf(one))), said: map.expectedError };
    });
    for (const { real, said } of rows) {
      expect(real.meanDeltaE00).toBeLessThan(1.7);
      expect(said.meanDeltaE00).toBeGreaterThan(0.75 * real.meanDeltaE00);
      expect(said.meanDeltaE00).toBeLessThan(2 * real.meanDeltaE00);
      expect(said.restsOn).toBe('calibration');
    }
    expect(mean(rows.map(({ said }) => said.p95DeltaE00))).toBeGreaterThan(
      0.8 * mean(rows.map(({ real }) => real.p95DeltaE00)),
    );
  });

  it('holds the true colour in its 90 % intervals for 80 to 98 of 100 coordinates', () => {
    let within = 0;
    let all = 0;
    for (const one of scenes.slice(0, 4)) {
      const map = fitReaderMap(pairing(one.printer, one.reader, chartColours(100, 8), 8).samples);
      const judged = judgedOf(one);
      map.toLab(judged.samples.map(({ rgb }) => rgb)).forEach(({ lab, sdLab }, i) => {
        for (let j = 0; j < 3; j += 1) {
          all += 1;
          if (Math.abs(lab[j]! - judged.truth[i]![j]!) < 1.6449 * sdLab[j]!) within += 1;
        }
      });
    }
    expect(within / all).toBeGreaterThan(0.8);
    expect(within / all).toBeLessThan(0.98);
  });

  it('names wrong pairs and is hardly worse for them', () => {
    const spoilt = same.map((sample, i): ReaderSample => {
      if (i === 17) return { ...sample, lab: same[60]!.lab };
      if (i === 60) return { ...sample, lab: same[17]!.lab };
      if (i === 90) return { ...sample, rgb: [0.9, 0.1, 0.1] };
      return sample;
    });
    const clean = summary(errorsOf(fitReaderMap(same), judgedOf(scene))).meanDeltaE00;
    const map = fitReaderMap(spoilt);
    for (const name of ['patch 18', 'patch 61', 'patch 91']) expect(map.remarks.join()).toContain(name);
    expect(summary(errorsOf(map, judgedOf(scene))).meanDeltaE00).toBeLessThan(clean + 0.15);
    expect(fitReaderMap(same).remarks).toEqual([]);
  });

  it('knows the colours it was learnt on and not those far from them', () => {
    const map = fitReaderMap(same);
    const known = map.toLab(judgedOf(scene).samples.map(({ rgb }) => rgb)).filter((colour) => colour.known);
    expect(known.length).toBeGreaterThan(190);
    const far = map.toLab([
      [0.95, 0.02, 0.9],
      [0.02, 0.95, 0.02],
    ]);
    expect(far.map((colour) => colour.known)).toEqual([false, false]);
    expect(far[1]!.sdLab[1]).toBeGreaterThan(2 * mean(known.map(({ sdLab }) => sdLab[1])));
  });

  it('gives the same numbers again from its data as JSON', () => {
    const map = fitReaderMap(same);
    const again = makeReaderMap(JSON.parse(JSON.stringify(map.data)));
    const asked = judgedOf(scene).samples.map(({ rgb }) => rgb);
    expect(again.toLab(asked)).toEqual(map.toLab(asked));
    expect(again.expectedError).toEqual(map.expectedError);
  });

  it('refuses pairs of one thing with another, and too few', () => {
    const codeOf = (samples: readonly ReaderSample[]): string => {
      try {
        fitReaderMap(samples);
      } catch (error) {
        return isProblem(error) ? error.code : String(error);
      }
      return 'taken';
    };
    const moved = same.map((sample, i) => ({ ...sample, lab: same[(i + 7) % same.length]!.lab }));
    expect(codeOf(moved)).toBe('chart.unusable');
    expect(codeOf(same.slice(0, 8))).toBe('chart.unusable');
    expect(codeOf([])).toBe('chart.unusable');
    expect(codeOf(same.map(() => same[0]!))).toBe('chart.unusable');
    expect(codeOf(same.map((sample) => ({ ...sample, rgb: [Number.NaN, 0, 0] })))).toBe('chart.unusable');
  });
});

describe('calibrated by a target of other colourants (grade B)', () => {
  it('errs more than with the same ink, and says so', () => {
    const rows = scenes
      .filter((_, i) => i % 2 === 0)
      .map((one) => {
        const target = pairing(otherColourants(one.model), one.reader, chartColours(264, 5), 5).samples;
        const judged = judgedOf(one);
        const own = fitReaderMap(pairing(one.printer, one.reader, chartColours(100, 6), 6).samples);
        const map = fitReaderMap(target, { by: 'target' });
        return {
          own: summary(errorsOf(own, judged)).meanDeltaE00,
          real: errorsOf(map, judged),
          said: map.expectedError,
          blind: fitReaderMap(target).expectedError,
        };
      });
    const real = summary(rows.flatMap((row) => row.real).sort((a, b) => a - b));
    const said = {
      mean: mean(rows.map((row) => row.said.meanDeltaE00)),
      p95: mean(rows.map((row) => row.said.p95DeltaE00)),
    };
    expect(real.meanDeltaE00).toBeGreaterThan(1.5 * mean(rows.map((row) => row.own)));
    // What the target's own left-out patches say is far too good.
    expect(mean(rows.map((row) => row.blind.meanDeltaE00))).toBeLessThan(0.6 * real.meanDeltaE00);
    expect(said.mean).toBeGreaterThan(0.8 * real.meanDeltaE00);
    expect(said.mean).toBeLessThan(2 * real.meanDeltaE00);
    expect(said.p95).toBeGreaterThan(0.8 * real.p95DeltaE00);
  });
});

describe('taken at its word (grade D)', () => {
  it('errs by about what is published for generic calibrations (more than 7), and the bare ground is neutral', () => {
    const errors = scenes.map((one) => {
      const groundRgb = one.reader.see(one.printer.reflect([[1, 1, 1]]), 3)[0]!;
      const map = tagReaderMap({ kind: 'scanner', groundRgb });
      const [ground] = map.toLab([groundRgb]);
      expect(ground!.lab[0]).toBeCloseTo(95, 6);
      expect(Math.hypot(ground!.lab[1], ground!.lab[2])).toBeLessThan(1e-6);
      expect(map.expectedError.restsOn).toBe('published');
      expect(makeReaderMap(JSON.parse(JSON.stringify(map.data))).toLab([[0.2, 0.3, 0.4]])).toEqual(
        map.toLab([[0.2, 0.3, 0.4]]),
      );
      return summary(errorsOf(map, judgedOf(one))).meanDeltaE00;
    });
    expect(mean(errors)).toBeGreaterThan(5);
    expect(mean(errors)).toBeLessThan(11);
  });

  it('takes a table for what it says, as closely as its grid', () => {
    const bent = (rgb: readonly [number, number, number]): Triple => {
      const [r, g, b] = rgb;
      return [0.9 * r ** 1.1 + 0.06 * g, 0.1 * r + 0.8 * g + 0.1 * b ** 1.2, 0.8 * b];
    };
    const map = tagReaderMap({ kind: 'phone', groundRgb: [0.9, 0.9, 0.9], toXyz: bent });
    expect(map.data.how.kind === 'tag' && map.data.how.matrix).toBeNull();
    const straight = tagReaderMap({
      kind: 'phone',
      groundRgb: [0.9, 0.9, 0.9],
      toXyz: ([r, g, b]) => [0.6 * r + 0.3 * g, 0.3 * r + 0.6 * g + 0.1 * b, 0.8 * b],
    });
    expect(straight.data.how.kind === 'tag' && straight.data.how.grid).toBeNull();
    const wanted = bent([0.31, 0.22, 0.44]);
    const ground = bent([0.9, 0.9, 0.9]);
    const [told] = map.toLab([[0.31, 0.22, 0.44]]);
    // Y beside the ground's, from lightness (CIE 1976): the ground is taken for L* 95.
    const y = ((told!.lab[0] + 16) / 116) ** 3 / ((95 + 16) / 116) ** 3;
    expect(y).toBeCloseTo(wanted[1] / ground[1], 2);
  });
});

describe('a card in the photo (grade C)', () => {
  const card = pairing(otherColourants(3), scene.reader, chartColours(30, 2).slice(0, 24), 5).samples;
  const ground = scene.reader.see(scene.printer.reflect([[1, 1, 1]]), 3)[0]!;

  it('is better than the reader’s own word, and never said to be better than published', () => {
    const judged = judgedOf(scene);
    const withCard = cardReaderMap(card, ground);
    const without = tagReaderMap({ kind: 'phone', groundRgb: ground });
    expect(summary(errorsOf(withCard, judged)).meanDeltaE00).toBeLessThan(
      0.6 * summary(errorsOf(without, judged)).meanDeltaE00,
    );
    expect(withCard.expectedError.meanDeltaE00).toBeGreaterThanOrEqual(5);
    expect(withCard.expectedError.restsOn).toBe('published');
  });

  it('brings a sheet that lay in more light than the card back below white', () => {
    const brighter = ground.map((v) => 1.6 * v) as unknown as typeof ground;
    const map = cardReaderMap(card, brighter);
    expect(map.toLab([brighter])[0]!.lab[0]).toBeLessThan(98.1);
    expect(map.remarks.join()).toContain('more light');
  });
});
