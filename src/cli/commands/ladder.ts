import path from 'node:path';
import { Command } from 'commander';
import type { Ladder, LadderNotes, LadderPlanFacts, TestSheetOrderInput } from '#contract';
import { Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';
import { assertPlaces } from '../out-bytes.js';
import { table } from '../say.js';
import { assertReadable, globals, numberFrom, oneOf, readNamedJson, stoppable, withShop } from './common.js';
import { ladderTable, ladderWords } from './ladder-words.js';
import { numbersFrom, rangeFrom, stepFrom } from './press-numbers.js';
import { makeTestSheetFiles, outputFor } from './test-sheet-files.js';

/** Coupons pressed in steps, and the window of time and temperature they tell. */
export function ladderCommand(): Command {
  const group = new Command('ladder')
    .alias('ladders')
    .description('coupons pressed in steps: plan, read, note, show, list; or judge one black');
  group.addCommand(planCommand());
  group.addCommand(readCommand());
  group.addCommand(noteCommand());
  group.addCommand(listCommand(), { isDefault: true });
  group.addCommand(showCommand());
  group.addCommand(blackCommand());
  return group;
}

interface PlanOptions {
  readonly setup: string;
  readonly blank: string;
  readonly press?: string;
  readonly coupons?: number;
  readonly vary?: string;
  readonly time?: [number, number];
  readonly temperature?: [number, number];
  readonly pressure?: [number, number];
  readonly start?: ReturnType<typeof stepFrom>;
  readonly couponMm?: number;
  readonly width?: number;
  readonly height?: number;
  readonly out?: string;
}

const factorKinds = ['time', 'temperature', 'pressure'] as const;

function planCommand(): Command {
  return new Command('plan')
    .description('which coupons to press, at what; with --out also the sheet to print')
    .requiredOption('--setup <id>', 'the print setup')
    .requiredOption('--blank <id>', 'what is pressed')
    .option('--press <id>', 'the press: its platen’s true temperature is then known')
    .option('--coupons <n>', '4 to 16 (default 9)', numberFrom('--coupons'))
    .option(
      '--vary <what>',
      'time, temperature or pressure, or two of them with a comma (default time, or what ranges are given for)',
    )
    .option('--time <low-high>', 'seconds, as 35-90', rangeFrom('--time'))
    .option('--temperature <low-high>', 'true °C, as 190-205', rangeFrom('--temperature'))
    .option('--pressure <low-high>', 'bar on the blank, as 0.5-2', rangeFrom('--pressure'))
    .option(
      '--start <°C,s[,bar]>',
      'what stays where it does not vary (default: the blank’s recipe)',
      (word) => stepFrom('--start', word),
    )
    .option('--coupon-mm <mm>', 'side of a coupon', numberFrom('--coupon-mm'))
    .option('--width <mm>', 'of the sheet (default: the paper’s)', numberFrom('--width'))
    .option('--height <mm>', 'of the sheet (default: the paper’s)', numberFrom('--height'))
    .option('--out <file>', 'a .pdf, .png or .tif; its ticket is put beside it')
    .action(async (options: PlanOptions, command: Command) => {
      const { say, folder } = globals(command);
      if (options.out !== undefined) {
        outputFor(options.out);
        await assertPlaces(options.out);
      }
      const order = orderFrom(options);
      const { out } = options;
      await withShop(folder, async (shop) => {
        const proposal = await shop.testSheets.propose(order);
        // A sheet that cannot be made is refused with why by making it.
        if (out === undefined) {
          say.answer({ proposal, sheet: null, written: [] }, () =>
            [
              proposal.standing,
              ...proposal.remarks,
              ...(proposal.ladder ? ['', planTable(proposal.ladder)] : []),
            ].join('\n'),
          );
          if (!proposal.possible) process.exitCode = 8;
          return;
        }
        const { sheet, written } = await makeTestSheetFiles(shop, order, out, say);
        say.answer({ proposal, sheet, written }, () =>
          [
            proposal.standing,
            ...proposal.remarks,
            '',
            ...(sheet.ladder ? [sheet.ladder.words, planTable(sheet.ladder), ''] : []),
            `Ladder ${spokenSheetId(sheet.id)}:`,
            ...written.map((file) => `  ${file}`),
            'Print it at 100 %, cut it, press the coupons in this order, let them cool, scan them together, then: dyewright ladder read SCAN',
          ].join('\n'),
        );
      });
    });
}

function orderFrom(options: PlanOptions): TestSheetOrderInput {
  const { setup, blank, press, coupons, start, couponMm, width, height } = options;
  const ranged = factorKinds.filter((kind) => options[kind] !== undefined);
  const words = options.vary?.split(',').map((word) => oneOf('--vary', factorKinds)(word.trim()));
  const factors = (words ?? (ranged.length > 0 ? ranged : (['time'] as const))).map((kind) => {
    const range = options[kind];
    return range === undefined ? { kind } : { kind, low: range[0], high: range[1] };
  });
  const stray = ranged.filter((kind) => !factors.some((factor) => factor.kind === kind));
  if (stray.length > 0) {
    throw new Problem('request.invalid', `--${stray[0]} is given, but ${stray[0]} does not vary.`, {
      remedy: `Write --vary with ${stray[0]} in it, or leave --${stray[0]} away.`,
    });
  }
  return {
    kind: 'ladder',
    setupId: setup,
    blankId: blank,
    factors,
    ...(press === undefined ? {} : { pressId: press }),
    ...(coupons === undefined ? {} : { coupons }),
    ...(start === undefined ? {} : { start }),
    ...(couponMm === undefined ? {} : { couponMm }),
    ...(width === undefined ? {} : { widthMm: width }),
    ...(height === undefined ? {} : { heightMm: height }),
  };
}

function planTable({ coupons }: LadderPlanFacts): string {
  const withBar = coupons.some(({ step }) => step.pressureBar !== undefined);
  return table(
    ['coupon', 'set °C', 's', ...(withBar ? ['bar'] : [])],
    coupons.map(({ number, setC, step }) => [
      String(number),
      String(setC),
      String(step.dwellSeconds),
      ...(withBar ? [String(step.pressureBar ?? '')] : []),
    ]),
  );
}

function readCommand(): Command {
  return new Command('read')
    .description('read coupons from a scan or photo, lying anyhow; what was read is kept')
    .argument('<file>', 'PNG, TIFF or JPEG')
    .option('--ladder <id>', 'the ladder meant, as its number stands on the coupons')
    .option('--reader <id>', 'the scanner or phone, as the shop knows it')
    .action(async (file: string, options: { ladder?: string; reader?: string }, command: Command) => {
      const { say, folder } = globals(command);
      await assertReadable(file);
      const ladder = await withShop(folder, (shop) =>
        shop.ladders.read(
          file,
          { fileName: path.basename(file), sheetId: options.ladder, readerId: options.reader },
          { signal: stoppable(), onProgress: (share, step) => say.progress(share, step) },
        ),
      );
      say.answer(ladder, () => [...pictureLines(ladder), '', ladderWords(ladder)].join('\n'));
    });
}

function pictureLines({ pictures }: Ladder): string[] {
  const picture = pictures.at(-1);
  if (picture === undefined) return [];
  const { coupons, remarks } = picture;
  return [
    `Read ${coupons.length} ${coupons.length === 1 ? 'coupon' : 'coupons'} from the ${picture.surface === 'piece' ? 'pressed pieces' : 'printed paper'}.`,
    ...remarks,
  ];
}

interface NoteOptions {
  readonly black?: 'green' | 'neutral' | 'brown';
  readonly edges?: 'crisp' | 'soft';
  readonly pressed?: ReturnType<typeof stepFrom>;
  readonly leaveOut: boolean;
  readonly takeIn: boolean;
  readonly file?: string;
}

function noteCommand(): Command {
  return new Command('note')
    .description('say what your eyes see of coupons, what was really set, or which to leave out')
    .argument('<ladder>', 'its number')
    .argument('[coupons]', 'numbers with commas, as 3 or 3,5,7')
    .option('--black <word>', 'green, neutral or brown', oneOf('--black', ['green', 'neutral', 'brown']))
    .option('--edges <word>', 'crisp or soft', oneOf('--edges', ['crisp', 'soft']))
    .option('--pressed <°C,s[,bar]>', 'what was really set, true temperature', (word) =>
      stepFrom('--pressed', word),
    )
    .option('--leave-out', 'spoilt: not used', false)
    .option('--take-in', 'used after all', false)
    .option('--file <file>', 'a JSON file with all that is to be said instead')
    .action(async (sheetId: string, coupons: string | undefined, options: NoteOptions, command: Command) => {
      const { say, folder } = globals(command);
      const notes =
        options.file === undefined
          ? notesFrom(coupons, options)
          : await readNamedJson(
              options.file,
              'Write it as in: {"coupons":[{"number":3,"byEye":{"black":"brown"}}]}',
            );
      const ladder = await withShop(folder, (shop) => shop.ladders.note(sheetId, notes));
      say.answer(ladder, () => ladderWords(ladder));
    });
}

function notesFrom(coupons: string | undefined, options: NoteOptions): LadderNotes {
  const { black, edges, pressed, leaveOut, takeIn } = options;
  const says = black !== undefined || edges !== undefined || pressed !== undefined || leaveOut !== takeIn;
  if (coupons === undefined || !says) {
    throw new Problem('request.invalid', 'It is not said which coupons, or what of them.', {
      remedy: 'Write it as in: dyewright ladder note LADDER 3,5 --black brown --edges soft',
    });
  }
  return {
    coupons: numbersFrom('[coupons]', coupons).map((number) => ({
      number,
      ...(black === undefined && edges === undefined
        ? {}
        : { byEye: { ...(black ? { black } : {}), ...(edges ? { edges } : {}) } }),
      ...(pressed === undefined ? {} : { pressed }),
      ...(leaveOut === takeIn ? {} : { leftOut: leaveOut }),
    })),
  };
}

function listCommand(): Command {
  return new Command('list')
    .description('all ladders')
    .option('--blank <id>', 'of one blank')
    .action(async ({ blank }: { blank?: string }, command: Command) => {
      const { say, folder } = globals(command);
      const all = await withShop(folder, (shop) => shop.ladders.list({ blankId: blank }));
      say.answer(all, () =>
        all.length === 0
          ? 'No ladder yet: dyewright ladder plan makes one.'
          : table(
              ['ladder', 'blank', 'coupons', 'where it stands'],
              all.map((one) => [
                spokenSheetId(one.sheetId),
                one.blankName,
                String(one.coupons.length),
                one.standing,
              ]),
            ),
      );
    });
}

function showCommand(): Command {
  return new Command('show')
    .description('one ladder: coupons, window, what to press next')
    .argument('<ladder>', 'its number')
    .option('--field', 'with --json: the window over temperature and time', false)
    .option('--courses', 'with --json: what was measured over time', false)
    .action(async (sheetId: string, options: { field: boolean; courses: boolean }, command: Command) => {
      const { say, folder } = globals(command);
      const answer = await withShop(folder, async (shop) => {
        const ladder = await shop.ladders.get(sheetId);
        return {
          ...ladder,
          ...(options.field ? { field: await shop.ladders.field(sheetId) } : {}),
          ...(options.courses ? { courses: await shop.ladders.courses(sheetId) } : {}),
        };
      });
      say.answer(answer, () => [ladderTable(answer), '', ladderWords(answer)].join('\n'));
    });
}

interface BlackOptions {
  readonly lab?: number[];
  readonly byEye?: 'green' | 'neutral' | 'brown';
  readonly at: ReturnType<typeof stepFrom>;
  readonly ladder?: string;
  readonly blank?: string;
}

function blackCommand(): Command {
  return new Command('black')
    .description('too little or too much, from one pressed black')
    .option('--by-eye <word>', 'green, neutral or brown', oneOf('--by-eye', ['green', 'neutral', 'brown']))
    .option('--lab <L,a,b>', 'or its measured CIELAB', (word) => numbersFrom('--lab', word, 3))
    .requiredOption('--at <°C,s[,bar]>', 'how it was pressed, true temperature', (word) =>
      stepFrom('--at', word),
    )
    .option('--ladder <id>', 'the ladder to go by')
    .option('--blank <id>', 'or the latest ladder of this blank')
    .action(async ({ lab, byEye, at, ladder, blank }: BlackOptions, command: Command) => {
      const { say, folder } = globals(command);
      if ((lab === undefined) === (byEye === undefined)) {
        throw new Problem('request.invalid', 'Say either --by-eye or --lab.', {
          remedy: 'Write it as in: dyewright ladder black --by-eye green --at 200,50',
        });
      }
      const answer = await withShop(folder, (shop) =>
        shop.ladders.verdict({
          black: lab === undefined ? { byEye } : { lab },
          step: at,
          ...(ladder === undefined ? {} : { ladderId: ladder }),
          ...(blank === undefined ? {} : { blankId: blank }),
        }),
      );
      say.answer(answer, () => [answer.words, ...answer.remarks].join('\n'));
    });
}
