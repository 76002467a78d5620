import type { Command } from 'commander';
import type { PathMeasurement } from '#contract';
import { idSchema } from '#contract';
import type { Triple, Triple3 } from '#craft/colour';
import type { InkModelData } from '#craft/inkmodel';
import { Problem } from '#craft/problem';
import { gradeMeanings } from '#craft/verification';
import { inkModelOf } from '#shop/paths';
import { oneOf, readNamed, withShop } from './common.js';

/** `--full`: what device values are counted to. */
export const fullOption = (command: Command): Command =>
  command.option(
    '--full <n>',
    'what device values are counted to: 1, 100 or 255 (default: the largest one tells)',
    oneOf('--full', ['1', '100', '255']),
  );

/** Ids have no dots and no slashes; a file in this folder without either is named ./model. */
export const isPathId = (word: string): boolean => idSchema.safeParse(word).success;

/** The model of a shop's colour path (an id) or of a file (anything that is no id: model.json, ./model). */
export async function modelNamed(
  word: string,
  folder: string,
): Promise<{ name: string; data: InkModelData }> {
  if (!isPathId(word)) return { name: word, data: inkModelOf(await readNamed(word)) };
  return withShop(folder, async (shop) => {
    const path = await shop.paths.get(word);
    return { name: path.name, data: await shop.paths.model(path) };
  });
}

/** Numbers in threes, parted by commas, semicolons or spaces. */
export function threesFrom(option: string): (word: string) => Triple3[] {
  const remedy = `Write it as in: ${option} 20,40,60 or, for two colours, ${option} 20,40,60,70,50,30`;
  return (word) => {
    const numbers = word
      .split(/[\s,;]+/)
      .filter((part) => part !== '')
      .map((part) => {
        const value = Number(part);
        if (Number.isFinite(value)) return value;
        throw new Problem('request.invalid', `${option} wants numbers, not “${part}”.`, { remedy });
      });
    if (numbers.length === 0 || numbers.length % 3 !== 0) {
      throw new Problem(
        'request.invalid',
        `${option} wants three numbers for each colour, not ${numbers.length}.`,
        { remedy },
      );
    }
    return Array.from({ length: numbers.length / 3 }, (_, i) => numbers.slice(3 * i, 3 * i + 3) as Triple3);
  };
}

/** One decimal, with a true minus and never −0. */
export function decimal(value: number, digits = 1): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? text.replace('-', '') : text.replace('-', '−');
}

export const labWords = (lab: Triple): string =>
  `L* ${decimal(lab[0])}, a* ${decimal(lab[1])}, b* ${decimal(lab[2])}`;

/** What a measured path rests on. */
export function measurementWords(
  measured: Omit<PathMeasurement, 'modelHash' | 'measurementsHash'>,
): string[] {
  const { expectedError, noiseSdLab, gamut, outliers } = measured;
  const [l, a, b] = noiseSdLab;
  return [
    `Grade ${measured.grade} (${gradeMeanings[measured.grade]}), ${measured.patches} ${measured.grade === 'E' ? 'picks' : 'patches'}${
      measured.adaptedFrom === null ? '' : `, adapted from “${measured.adaptedFrom}”`
    }.`,
    `  Expected error: mean ${decimal(expectedError.meanDeltaE00, 2)}, 95 % of colours within ${decimal(expectedError.p95DeltaE00, 2)} ΔE00; changes from print to print come on top.`,
    `  Reading noise: ${decimal(l, 2)} L*, ${decimal(a, 2)} a*, ${decimal(b, 2)} b* (standard deviation of one reading).`,
    `  White: ${labWords(gamut.whiteLab)}. Darkest: ${labWords(gamut.blackLab)}.`,
    `  Gamut: ${(1000 * Math.round(gamut.volumeLab / 1000)).toLocaleString('en')} cubic Lab units; ${Math.round(100 * gamut.srgbShare)} % of sRGB's colours.`,
    ...(outliers.length === 0
      ? []
      : [
          `  Left out, for they do not fit the others (${outliers.length}):`,
          ...outliers.map(
            (one) =>
              `    patch ${one.sampleId}: read ${labWords(one.measuredLab)}; expected ${labWords(one.expectedLab)}; ${decimal(one.deltaE00)} ΔE00 apart`,
          ),
        ]),
    ...measured.remarks.map((remark) => `  ${remark}`),
  ];
}
