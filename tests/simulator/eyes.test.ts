import { beforeAll, describe, expect, it } from 'vitest';
import { deltaE00, labFromXyz, srgbFromLab, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import { type EyeAnswers, eyeModel, makeEyeModel } from '#craft/eyes';
import { type ColourModel, makeInverse } from '#craft/inkmodel';
import { createRandom } from '#craft/numerics';
import { isProblem } from '#craft/problem';
import { newSheetId } from '#craft/sheet';
import { planGreySheet } from '#craft/testsheet';
import {
  driverSrgb,
  dyeOnCoating,
  halftoneCmy,
  halftoneCmyk,
  type VirtualPrinter,
} from './virtual-printer.js';

/** A person with a grey sheet of a printer: picks with noise of about what can just be noticed (1 ΔE). */
function pickedFrom(printer: VirtualPrinter, seed: number, deviceOf?: (lab: Triple) => Triple): EyeAnswers {
  const random = createRandom(seed);
  const { rows, tone } = planGreySheet({
    sheetId: newSheetId(Uint8Array.of(2, 4, 6, 8, 10, 12)),
    widthMm: 210,
    heightMm: 297,
    marginMm: 5,
    mirrorOnWriting: true,
    ...(deviceOf ? { deviceOf } : {}),
  });
  const see = (rgb: Triple): Triple => printer.print([rgb.map((v) => v / 255) as Triple3])[0]!;
  const white = xyzFromLab(see([255, 255, 255]));
  const beside = (lab: Triple): Triple3 => labFromXyz(xyzFromLab(lab), white);
  const noise = (): number => 0.7 * random.normal();
  const least = <T>(items: readonly T[], of: (item: T) => number): T =>
    items.map((item) => ({ item, v: of(item) })).reduce((best, one) => (one.v < best.v ? one : best)).item;
  const steps = (question: string) => tone.find((row) => row.question === question)!.steps;
  const told = (question: string, from: Triple): Triple => {
    const list = steps(question);
    return (
      list.find(({ deviceRgb }) => deltaE00(see(deviceRgb), from) > 1 + 0.3 * random.normal()) ?? list.at(-1)!
    ).deviceRgb;
  };
  return {
    rows: rows.map(({ level, candidates }) => ({
      level,
      chosen: least(candidates, ({ deviceRgb }) => {
        const [, a, b] = beside(see(deviceRgb));
        return Math.hypot(a + noise(), b + noise());
      }),
    })),
    fromBlack: told('from-black', see([0, 0, 0])),
    fromWhite: told('from-white', see([255, 255, 255])),
    likeCard: least(steps('like-card'), ({ deviceRgb }) => Math.abs(see(deviceRgb)[0] - 49.5 + noise()))
      .deviceRgb,
  };
}

/** Greys from dark to light: how far from neutral they come out, and how far from the lightness asked for. */
function greysOf(
  printer: VirtualPrinter,
  deviceOf: (lab: Triple) => Triple,
): { cast: number; light: number } {
  const lightnesses = Array.from({ length: 13 }, (_, i) => 30 + 5 * i);
  const white = xyzFromLab(printer.print([[1, 1, 1]])[0]!);
  const seen = printer
    .print(lightnesses.map((l) => deviceOf([l, 0, 0]).map((v) => Math.min(1, Math.max(0, v))) as Triple3))
    .map((lab) => labFromXyz(xyzFromLab(lab), white));
  const mean = (values: number[]): number => values.reduce((sum, v) => sum + v, 0) / values.length;
  return {
    cast: mean(seen.map(([, a, b]) => Math.hypot(a, b))),
    light: mean(seen.map(([l], i) => Math.abs(l - lightnesses[i]!))),
  };
}
const plain = (lab: Triple): Triple => srgbFromLab(lab);
const through = (model: ColourModel): ((lab: Triple) => Triple) =>
  makeInverse(model, 17).deviceFor('relative');

describe('a path from picks on a grey sheet', () => {
  let printers: VirtualPrinter[] = [];
  beforeAll(async () => {
    printers = [dyeOnCoating(0), dyeOnCoating(1), dyeOnCoating(2), await halftoneCmy(), await halftoneCmyk()];
  });

  it('takes most of the cast out of greys, and brings tone nearer', () => {
    const rows = printers.map((printer, i) => {
      const before = greysOf(printer, plain);
      const { model, remarks } = eyeModel(pickedFrom(printer, 11 + i));
      return { name: printer.name, before, after: greysOf(printer, through(model)), remarks };
    });
    for (const { name, before, after } of rows) {
      if (before.cast > 4) expect(after.cast, name).toBeLessThan(0.65 * before.cast);
      else expect(after.cast, name).toBeLessThan(before.cast + 1);
      // Three tone picks leave open how tone runs between them.
      expect(after.light, name).toBeLessThan(before.light + 3);
    }
    const sum = (of: (row: (typeof rows)[number]) => number) =>
      rows.reduce((total, row) => total + of(row), 0);
    expect(sum((row) => row.after.cast)).toBeLessThan(0.5 * sum((row) => row.before.cast));
    expect(sum((row) => row.after.light)).toBeLessThan(0.6 * sum((row) => row.before.light));
  });

  it('comes nearer still by a second sheet printed through the first path', () => {
    const rows = printers.slice(0, 3).map((printer, i) => {
      const first = eyeModel(pickedFrom(printer, 31 + i)).model;
      const deviceOf = through(first);
      const second = eyeModel(pickedFrom(printer, 41 + i, deviceOf), first).model;
      return { one: greysOf(printer, deviceOf), two: greysOf(printer, through(second)) };
    });
    const sum = (of: (row: (typeof rows)[number]) => number) =>
      rows.reduce((total, row) => total + of(row), 0);
    expect(sum((row) => row.two.cast)).toBeLessThan(0.8 * sum((row) => row.one.cast));
  });

  it('makes greys no worse than by 1 ΔE where there was no cast', async () => {
    const lifted: VirtualPrinter = {
      name: 'plain sRGB with a weak black',
      print: (rgb) =>
        rgb.map(([r, g, b]) => {
          const decode = (v: number): number => 0.02 + 0.84 * v ** 2.2;
          const [x, y, z] = [decode(r), decode(g), decode(b)];
          return labFromXyz([
            0.9642 * (0.45 * x + 0.4 * y + 0.15 * z),
            0.22 * x + 0.72 * y + 0.06 * z,
            0.8249 * (0.02 * x + 0.12 * y + 0.86 * z),
          ]);
        }),
    };
    for (const printer of [lifted, await driverSrgb()]) {
      const before = greysOf(printer, plain);
      for (const seed of [1, 2, 3, 4, 5]) {
        const after = greysOf(printer, through(eyeModel(pickedFrom(printer, seed)).model));
        expect(after.cast, `${printer.name}, ${seed}`).toBeLessThan(before.cast + 1);
      }
    }
  });

  it('says how little it knows of strong colours, and gives the same numbers again from its data', () => {
    const answers = pickedFrom(printers[0]!, 5);
    const { model, data } = eyeModel(answers);
    const rgb: Triple[] = [
      [1, 0, 0],
      [0.5, 0.5, 0.5],
    ];
    const said = model.predict(rgb);
    expect(said[0]!.expectedDeltaE00).toBeGreaterThan(4);
    expect(said[1]!.sdLab[1]).toBeLessThan(said[0]!.sdLab[1]);
    const again = makeEyeModel(JSON.parse(JSON.stringify(data)));
    expect(again.predict(rgb)).toEqual(said);
    expect([...model.predictLab(Float64Array.from(rgb.flat()))]).toEqual(said.flatMap(({ lab }) => [...lab]));
  });

  it('refuses picks that cannot all be', () => {
    const answers = pickedFrom(printers[0]!, 5);
    const codeOf = (given: EyeAnswers): string => {
      try {
        eyeModel(given);
      } catch (error) {
        return isProblem(error) ? error.code : String(error);
      }
      return 'taken';
    };
    expect(codeOf({ ...answers, fromBlack: answers.fromWhite })).toBe('chart.unusable');
    expect(codeOf({ ...answers, likeCard: [0, 0, 0] })).toBe('chart.unusable');
    expect(codeOf({ ...answers, rows: answers.rows.slice(0, 1) })).toBe('chart.unusable');
    expect(codeOf({ ...answers, fromBlack: [Number.NaN, 0, 0] })).toBe('chart.unusable');
  });
});
