import path from 'node:path';
import { Command } from 'commander';
import type { EvennessReadingFacts, TestSheetOrderInput } from '#contract';
import { spokenSheetId } from '#craft/sheet';
import { assertPlaces } from '../out-bytes.js';
import { table } from '../say.js';
import { assertReadable, globals, numberFrom, stoppable, withShop } from './common.js';
import { makeTestSheetFiles, outputFor } from './test-sheet-files.js';

/** Where a press gives less than elsewhere, by a sheet of one middle tone. */
export function evennessCommand(): Command {
  const group = new Command('evenness').description(
    'a sheet of one tone over the whole platen: make, read, list, show, remove',
  );
  group.addCommand(sheetCommand());
  group.addCommand(readCommand());
  group
    .command('list', { isDefault: true })
    .description('all readings, newest first')
    .option('--sheet <id>', 'of one evenness sheet')
    .option('--press <id>', 'of one press')
    .action(async ({ sheet, press }: { sheet?: string; press?: string }, command: Command) => {
      const { say, folder } = globals(command);
      const all = await withShop(folder, (shop) => shop.evenness.list({ sheetId: sheet, pressId: press }));
      say.answer(all, () =>
        all.length === 0
          ? 'No evenness sheet was read yet.'
          : table(
              ['id', 'press', 'read', 'mean ΔE00', 'what was found'],
              all.map((one) => [
                one.id,
                one.pressName ?? '',
                one.createdAt.slice(0, 10),
                one.meanDeltaE00.toFixed(1),
                one.findings.map(({ kind }) => kind).join(', '),
              ]),
            ),
      );
    });
  group
    .command('show <id>')
    .description('one reading, with its map')
    .action(async (id: string, _options, command: Command) => {
      const { say, folder } = globals(command);
      const reading = await withShop(folder, (shop) => shop.evenness.get(id));
      say.answer(reading, () => evennessWords(reading));
    });
  group
    .command('remove <id>')
    .description('forget one')
    .action(async (id: string, _options, command: Command) => {
      const { say, folder } = globals(command);
      await withShop(folder, (shop) => shop.evenness.remove(id));
      say.answer({ removed: id }, () => `Removed ${id}.`);
    });
  return group;
}

interface SheetOptions {
  readonly setup: string;
  readonly blank: string;
  readonly press?: string;
  readonly width?: number;
  readonly height?: number;
  readonly out: string;
}

function sheetCommand(): Command {
  return new Command('sheet')
    .description('make the sheet to print and press over the whole platen')
    .requiredOption('--setup <id>', 'the print setup')
    .requiredOption('--blank <id>', 'what is pressed: its coating and recipe')
    .option('--press <id>', 'the press')
    .option('--width <mm>', 'of the sheet (default: the paper’s)', numberFrom('--width'))
    .option('--height <mm>', 'of the sheet (default: the paper’s)', numberFrom('--height'))
    .requiredOption('--out <file>', 'a .pdf, .png or .tif; its ticket is put beside it')
    .action(async ({ setup, blank, press, width, height, out }: SheetOptions, command: Command) => {
      const { say, folder } = globals(command);
      outputFor(out);
      await assertPlaces(out);
      const order: TestSheetOrderInput = {
        kind: 'evenness',
        setupId: setup,
        blankId: blank,
        ...(press === undefined ? {} : { pressId: press }),
        ...(width === undefined ? {} : { widthMm: width }),
        ...(height === undefined ? {} : { heightMm: height }),
      };
      await withShop(folder, async (shop) => {
        const proposal = await shop.testSheets.propose(order);
        const { sheet, written } = await makeTestSheetFiles(shop, order, out, say);
        say.answer({ proposal, sheet, written }, () =>
          [
            proposal.standing,
            ...proposal.remarks,
            '',
            `Evenness sheet ${spokenSheetId(sheet.id)}:`,
            ...written.map((file) => `  ${file}`),
            'Print it at 100 %, press it with its top to the back of the press, let it cool, scan it, then: dyewright evenness read SCAN',
          ].join('\n'),
        );
      });
    });
}

interface ReadOptions {
  readonly sheet?: string;
  readonly press?: string;
  readonly reader?: string;
}

function readCommand(): Command {
  return new Command('read')
    .description('read a scan of an evenness sheet; what was read is kept')
    .argument('<file>', 'PNG, TIFF or JPEG')
    .option('--sheet <id>', 'the sheet meant, as its number stands on it')
    .option('--press <id>', 'the press it was pressed on (default: the one it was made for)')
    .option('--reader <id>', 'the scanner, as the shop knows it')
    .action(async (file: string, { sheet, press, reader }: ReadOptions, command: Command) => {
      const { say, folder } = globals(command);
      await assertReadable(file);
      const reading = await withShop(folder, (shop) =>
        shop.evenness.read(
          file,
          { fileName: path.basename(file), sheetId: sheet, pressId: press, readerId: reader },
          { signal: stoppable(), onProgress: (share, step) => say.progress(share, step) },
        ),
      );
      say.answer(reading, () => evennessWords(reading));
    });
}

/** Dots from ' ' (as good as the best) to '#': a tenth of the worst each. */
const tones = ' .:-=+*%@#';

function evennessWords(reading: EvennessReadingFacts): string {
  const { map, sentences, findings, since, id } = reading;
  const worst = Math.max(1, ...map.smooth);
  const rows = Array.from({ length: map.rows }, (_, r) =>
    map.smooth
      .slice(r * map.columns, (r + 1) * map.columns)
      .map((v) => tones[Math.min(tones.length - 1, Math.floor((10 * Math.max(0, v)) / worst))])
      .join(''),
  );
  return [
    ...sentences,
    ...findings.map(({ likely }) => likely).filter((words) => words !== ''),
    ...(since === null ? [] : [since.words]),
    '',
    `back of the press; blank is best, # is ${worst.toFixed(1)} ΔE00 behind`,
    ...rows.map((row) => `|${row}|`),
    `Kept as ${id}.`,
  ].join('\n');
}
