import { Command } from 'commander';
import type { Reader } from '#contract';
import { Problem } from '#craft/problem';
import type { Point } from '#craft/reading';
import { table } from '../say.js';
import { assertReadable, globals, oneOf, readNamed, withShop } from './common.js';

/** Scanners and phones, and calibrating them. */
export function readerCommand(): Command {
  const group = new Command('reader')
    .alias('readers')
    .description('scanners and phones: list, add, calibrate, remove');
  group
    .command('list', { isDefault: true })
    .description('all scanners and phones, with what their colours are worth')
    .action(async (_options, command: Command) => {
      const { say, folder } = globals(command);
      const all = await withShop(folder, (shop) => shop.readers.list());
      say.answer(all, () =>
        all.length === 0
          ? 'No scanner or phone yet: colours are taken from what a picture says of itself (grade D).'
          : table(['id', 'name', 'kind', 'calibrated by', 'expected ΔE00'], all.map(row)),
      );
    });
  group
    .command('add <id>')
    .description('add one, or change what is said of it; its calibration stays')
    .option('--name <name>', 'what to call it (default: the id)')
    .option('--kind <kind>', 'scanner or phone', oneOf('--kind', ['scanner', 'phone']), 'scanner')
    .option('--note <text>', 'settings to keep alike', '')
    .action(
      async (
        id: string,
        options: { name?: string; kind: 'scanner' | 'phone'; note: string },
        command: Command,
      ) => {
        const { say, folder } = globals(command);
        const { name = id, kind, note } = options;
        const reader = await withShop(folder, (shop) => shop.readers.put(id, { name, kind, note }));
        say.answer(reader, () => `Kept “${reader.name}” as ${reader.id}.`);
      },
    );
  group.addCommand(calibrateCommand());
  group
    .command('remove <id>')
    .description('forget one; readings made with it stay')
    .action(async (id: string, _options, command: Command) => {
      const { say, folder } = globals(command);
      await withShop(folder, (shop) => shop.readers.remove(id));
      say.answer({ removed: id }, () => `Removed ${id}.`);
    });
  return group;
}

interface CalibrateOptions {
  readonly reading?: string;
  readonly picture?: string;
  readonly corners?: string;
}

function calibrateCommand(): Command {
  return new Command('calibrate')
    .description('learn how it sees, from a reading and an instrument’s file, or from a picture of a target')
    .argument('<id>', 'the scanner or phone')
    .argument('<file>', 'CGATS: measurements of the same sheet (--reading), or the target’s own (--picture)')
    .option('--reading <id>', 'a kept reading made with it, of the sheet that was measured: the same ink')
    .option('--picture <file>', 'a picture of a reference target made with it')
    .option('--corners <x,y,…>', 'outer corners of the target’s field of patches, pixels, going round')
    .action(async (id: string, file: string, options: CalibrateOptions, command: Command) => {
      const { say, folder } = globals(command);
      const { reading, picture } = options;
      if ((reading === undefined) === (picture === undefined)) {
        throw new Problem('request.invalid', 'Name either --reading or --picture.', {
          remedy:
            '--reading takes a kept reading of a sheet that was measured too; --picture a picture of a reference target.',
        });
      }
      const corners = picture === undefined ? [] : cornersOf(options.corners ?? '');
      if (picture !== undefined) await assertReadable(picture);
      const reference = await readNamed(file);
      const reader = await withShop(folder, (shop) =>
        picture === undefined
          ? shop.readings.calibrateReader(id, reading ?? '', reference)
          : shop.readers.calibrateFromTarget(id, { source: picture, corners, reference }),
      );
      say.answer(reader, () => calibrated(reader));
    });
}

function cornersOf(words: string): Point[] {
  const numbers = words
    .split(/[\s,;]+/)
    .filter(Boolean)
    .map(Number);
  if (numbers.length !== 8 || !numbers.every(Number.isFinite)) {
    throw new Problem('request.invalid', '--corners wants eight numbers: x,y of four corners.', {
      remedy: 'Give pixels of the picture, going round: --corners 120,90,2310,88,2300,1400,118,1405',
    });
  }
  return [0, 2, 4, 6].map((i) => ({ x: numbers[i]!, y: numbers[i + 1]! }));
}

const words = { 'same-ink': 'the same ink', target: 'a target' } as const;

const row = ({ id, name, kind, calibration }: Reader): string[] => [
  id,
  name,
  kind,
  calibration === null ? 'not yet' : words[calibration.by],
  calibration === null ? 'not known' : calibration.expectedError.meanDeltaE00.toFixed(1),
];

function calibrated({ name, calibration }: Reader): string {
  if (calibration === null) return `“${name}” is not calibrated.`;
  const { by, samples, expectedError, remarks } = calibration;
  const { meanDeltaE00, p95DeltaE00 } = expectedError;
  return [
    `“${name}” is calibrated by ${words[by]}, on ${samples} patches (grade B): colours within ${meanDeltaE00.toFixed(1)} ΔE00 on average, 95 % within ${p95DeltaE00.toFixed(1)}.`,
    ...remarks,
  ].join('\n');
}
