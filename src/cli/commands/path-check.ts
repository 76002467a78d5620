import path from 'node:path';
import { Command } from 'commander';
import type { PathCheck, PathStanding, Reading } from '#contract';
import { statedSheetId } from '#craft/cgats';
import { Problem } from '#craft/problem';
import type { Shop } from '#shop';
import { measurementsOf } from '#shop/paths';
import { table } from '../say.js';
import { assertReadable, globals, oneOf, readNamed, stoppable, withShop } from './common.js';
import { decimal, measurementWords } from './path-words.js';

interface VerifyOptions {
  readonly reader?: string;
  readonly reading?: string;
  readonly measurements?: string;
  readonly sheet?: string;
  readonly from?: 'scan' | 'photo';
}

/** A check sheet read back: does the path keep what it promises? */
export function pathVerifyCommand(): Command {
  return new Command('verify')
    .description('judge a colour path by a check sheet that was printed through it')
    .argument('<path>', 'id of a colour path')
    .argument('[scan]', 'scan or photo of the pressed check sheet')
    .option('--reader <id>', 'the scanner or phone it was read with, as the shop knows it')
    .option('--from <what>', 'scan or photo', oneOf('--from', ['scan', 'photo']))
    .option('--reading <id>', 'a reading that the shop has')
    .option('--measurements <file>', "an instrument's CGATS or CSV file of the check sheet's patches")
    .option('--sheet <id>', 'the check sheet, where scan or file do not say')
    .action(async (id: string, scan: string | undefined, options: VerifyOptions, command: Command) => {
      const { say, folder } = globals(command);
      if ([scan, options.reading, options.measurements].filter((one) => one !== undefined).length !== 1) {
        throw new Problem('request.invalid', 'Give one thing to check by.', {
          remedy: 'Name a scan, or --reading with its id, or --measurements with a file.',
        });
      }
      if (scan !== undefined) await assertReadable(scan);
      const check = await withShop(folder, async (shop) => {
        await shop.paths.get(id);
        const reading = await readingFor(shop, id, scan, options, (share, step) => say.progress(share, step));
        return shop.colourRound.check(id, reading.id);
      });
      say.answer(check, () => checkWords(check).join('\n'));
    });
}

/** What is known of one path. */
export function pathShowCommand(): Command {
  return new Command('show')
    .description('what a colour path rests on, how it was checked, and whether it still fits')
    .argument('<path>', 'id of a colour path')
    .option('--setup <id>', 'whether it fits this print setup (default: the one it was measured with)')
    .option('--blank <id>', 'and this blank')
    .action(async (id: string, options: { setup?: string; blank?: string }, command: Command) => {
      const { say, folder } = globals(command);
      const known = await withShop(folder, async (shop) => ({
        path: await shop.paths.get(id),
        standing: await shop.colourRound.standing(id, { setupId: options.setup, blankId: options.blank }),
        checks: await shop.colourRound.checks(id),
      }));
      say.answer(known, () => {
        const { path: one, standing, checks } = known;
        const [newest, ...older] = checks;
        return [
          `“${one.name}” (${one.id}), ICC ${one.iccVersion}, of ${one.createdAt.slice(0, 10)}.`,
          ...(one.measurement === undefined
            ? ['An imported profile: nobody measured it here.']
            : measurementWords(one.measurement)),
          ...(one.belongsTo === undefined
            ? ['It is not known which printer and blank it was measured on.']
            : [`Measured with ${one.belongsTo.setup.name} on ${one.belongsTo.blank.name}.`]),
          ...standingWords(standing),
          ...(newest === undefined ? ['Not checked yet.'] : checkWords(newest)),
          ...older.map(
            (check) => `Before, on ${check.createdAt.slice(0, 10)}: ${decimal(check.overall.mean)} ΔE00.`,
          ),
        ].join('\n');
      });
    });
}

async function readingFor(
  shop: Shop,
  pathId: string,
  scan: string | undefined,
  options: VerifyOptions,
  onProgress: (share: number, step: string) => void,
): Promise<Reading> {
  const { reader, reading, measurements, sheet, from } = options;
  if (reading !== undefined) return shop.readings.get(reading);
  if (measurements !== undefined) {
    const bytes = await readNamed(measurements);
    const sheetId = sheet ?? statedSheetId(measurementsOf(bytes)) ?? (await onlyCheckSheet(shop, pathId));
    return shop.readings.importFile(bytes, { sheetId, fileName: path.basename(measurements) });
  }
  const about = {
    fileName: path.basename(scan!),
    subject: 'piece' as const,
    ...(reader === undefined ? {} : { readerId: reader }),
    ...(sheet === undefined ? {} : { sheetId: sheet }),
    ...(from === undefined ? {} : { from }),
  };
  return shop.readings.read(scan!, about, { signal: stoppable(), onProgress });
}

async function onlyCheckSheet(shop: Shop, pathId: string): Promise<string> {
  const sheets = (await shop.testSheets.list()).filter(
    ({ order }) => order.kind === 'check' && order.pathId === pathId,
  );
  if (sheets.length === 1) return sheets[0]!.id;
  throw new Problem(
    'request.invalid',
    sheets.length === 0
      ? 'No check sheet was made for this path yet.'
      : `${sheets.length} check sheets were made for this path.`,
    {
      remedy:
        sheets.length === 0
          ? 'Make one with dyewright colour-sheet, print it, press it and measure it.'
          : 'Say which one was measured with --sheet, by the number that stands on it.',
    },
  );
}

export function standingWords({ standing, reasons }: PathStanding): string[] {
  const first = {
    fits: 'It fits how things are printed and pressed now.',
    look: 'It may not quite fit how things are printed and pressed now:',
    stale: 'It no longer fits how things are printed and pressed now:',
    unknown: 'Whether it still fits is not known.',
  }[standing];
  return [first, ...reasons.map((reason) => `  ${reason.sentence}`)];
}

function checkWords(check: PathCheck): string[] {
  const row = (name: string, spread: PathCheck['neutrals']): string[][] =>
    spread === null
      ? []
      : [
          [
            name,
            String(spread.count),
            decimal(spread.mean, 2),
            decimal(spread.p95, 2),
            decimal(spread.max, 2),
          ],
        ];
  return [
    `Check of ${check.createdAt.slice(0, 10)}, read with grade ${check.grade}:`,
    ...check.sentences,
    table(
      ['ΔE00', 'patches', 'mean', '95 %', 'max'],
      [
        ...row('within reach', check.overall),
        ...row('greys', check.neutrals),
        ...row('beyond reach', check.limited),
      ],
    ),
  ];
}
