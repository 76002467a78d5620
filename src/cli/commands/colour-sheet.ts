import { randomInt } from 'node:crypto';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { Command } from 'commander';
import type { SheetOutputOptions, TestSheetOrderInput } from '#contract';
import { Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';
import {
  type ColourSheetOrder,
  choosePatches,
  colourSheetId,
  largestColourSheetSeed,
  planColourSheet,
} from '#craft/testsheet';
import type { Shop } from '#shop';
import { closeRenderWorkers } from '#shop/render';
import { drawTestSheetFile } from '#shop/test-sheets';
import { assertPlaces } from '../out-bytes.js';
import type { Say } from '../say.js';
import { type PlacedColour, placesOf } from './chart-places.js';
import { assertReadable, globals, numberFrom, stoppable, withShop } from './common.js';
import { makeTestSheetFiles, outputFor } from './test-sheet-files.js';

interface Options {
  readonly out: string;
  readonly patches?: number;
  readonly seed?: number;
  readonly fabric: boolean;
  readonly width?: number;
  readonly height?: number;
  readonly margin?: number;
  readonly ppi?: number;
  readonly mirror: boolean;
  readonly setup?: string;
  readonly blank?: string;
  readonly check?: string;
  readonly followUp?: string;
  readonly artwork?: string;
  readonly palette?: string;
  readonly grey: boolean;
}

/** Charts to print, press and read: by themselves, or for a print setup and blank of the shop. */
export function colourSheetCommand(): Command {
  return new Command('colour-sheet')
    .description(
      'make a colour test sheet to print, press and read (or a check, follow-up, grey or palette sheet)',
    )
    .requiredOption('--out <file>', 'a .pdf, .png or .tif')
    .option('--patches <n>', '30 to 900 (default 150; a check 36, a follow-up 40)', numberFrom('--patches'))
    .option('--seed <n>', 'the same seed gives the same patches and places', numberFrom('--seed'))
    .option('--fabric', 'for cloth: larger patches', false)
    .option('--width <mm>', 'of the sheet (default: the paper of the setup, else 210)', numberFrom('--width'))
    .option(
      '--height <mm>',
      'of the sheet (default: the paper of the setup, else 297)',
      numberFrom('--height'),
    )
    .option(
      '--margin <mm>',
      'not printable at each edge (without --setup; default 3)',
      numberFrom('--margin'),
    )
    .option('--ppi <n>', 'pixels per inch (without --setup; default 300)', numberFrom('--ppi'))
    .option('--no-mirror', 'do not mirror: the driver does (without --setup)')
    .option('--setup <id>', 'for this print setup of the shop; the sheet is recorded there')
    .option('--blank <id>', 'what it is pressed on, with --setup')
    .option('--check <path>', 'a check sheet: colours through this colour path')
    .option('--follow-up <path>', 'more patches where this colour path is least sure')
    .option('--artwork <file>', 'with --follow-up: near the colours of this artwork')
    .option('--palette <path>', 'a palette of what this colour path reaches')
    .option('--grey', 'a grey sheet, judged by eye', false)
    .action(async (_: unknown, command: Command) => {
      const options = command.opts<Options>();
      const { say, folder } = globals(command);
      const output = outputFor(options.out);
      await assertPlaces(options.out);
      refuseMixed(options);
      if (options.setup === undefined) await makeAlone(options, output, say);
      else await withShop(folder, (shop) => makeInShop(shop, options, say));
    });
}

function refuseMixed(options: Options): void {
  const { setup, blank, check, followUp, palette, grey, artwork } = options;
  const kinds = [check, followUp, palette, grey || undefined].filter((kind) => kind !== undefined);
  const refuse = (message: string, remedy: string): never => {
    throw new Problem('request.invalid', message, { remedy });
  };
  if (kinds.length > 1)
    refuse('Only one of --check, --follow-up, --palette and --grey can be made at a time.', 'Leave one.');
  if (kinds.length === 1 && setup === undefined)
    refuse('Such a sheet is made for a print setup and a blank.', 'Name them with --setup and --blank.');
  if ((setup === undefined) !== (blank === undefined))
    refuse('--setup and --blank go together.', 'Name both; dyewright setups and dyewright blanks list them.');
  if (artwork !== undefined && followUp === undefined)
    refuse('--artwork goes with --follow-up.', 'Name the colour path with --follow-up.');
  if (setup === undefined) return;
  const stray = [
    options.margin === undefined ? [] : ['--margin'],
    options.ppi === undefined ? [] : ['--ppi'],
    options.mirror ? [] : ['--no-mirror'],
  ].flat();
  if (stray.length > 0)
    refuse(
      `With --setup the print setup says what ${stray.join(', ')} would.`,
      'Leave it away, or change the setup.',
    );
}

/** Without any record: what the sheet is stands in its own code. */
async function makeAlone(options: Options, output: SheetOutputOptions, say: Say): Promise<void> {
  const { patches: count = 150, seed = randomInt(largestColourSheetSeed + 1) } = options;
  const material = options.fabric ? 'fabric' : 'hard';
  const { width: widthMm = 210, height: heightMm = 297, margin: marginMm = 3, ppi = 300 } = options;
  const sheetId = colourSheetId({ count, seed, material });
  const order: ColourSheetOrder = {
    sheetId,
    widthMm,
    heightMm,
    marginMm,
    material,
    seed,
    patches: choosePatches(count, seed),
    mirrorOnWriting: options.mirror,
  };
  if (!(ppi >= 72 && ppi <= 1200)) {
    throw new Problem('request.invalid', `${ppi} pixels per inch cannot be.`, {
      remedy: 'Name 72 to 1200; 300 is what most printers want.',
    });
  }
  const { plan, layout } = planColourSheet(order);
  const tempFolder = await mkdtemp(path.join(tmpdir(), 'dyewright-'));
  try {
    await drawTestSheetFile({
      plan,
      ppi,
      output,
      iccBytes: null,
      outPath: path.resolve(options.out),
      tempFolder,
      signal: stoppable(),
      onProgress: (share, step) => say.progress(share, step),
    });
  } finally {
    await rm(tempFolder, { recursive: true, force: true });
    await closeRenderWorkers();
  }
  const patchMm = layout.pitchMm - layout.gapMm;
  const answer = {
    sheet: {
      id: sheetId,
      kind: 'colour',
      patches: count,
      seed,
      material,
      widthMm,
      heightMm,
      marginMm,
      ppi,
      patchMm,
      mirrored: options.mirror,
    },
    places: placesOf(order),
    written: [options.out],
  };
  say.answer(answer, () =>
    [
      `Colour test sheet ${spokenSheetId(sheetId)}: ${count} patches of ${patchMm.toFixed(1)} mm (seed ${seed}).`,
      `Wrote ${options.out}, ${options.mirror ? 'mirrored: the driver must not mirror it' : 'not mirrored: the driver must'}.`,
      'Print it at 100 % by the route of your work, press it, let it cool, scan it at 300 ppi, then: dyewright read SCAN',
    ].join('\n'),
  );
}

async function makeInShop(shop: Shop, options: Options, say: Say): Promise<void> {
  const order = await orderFrom(shop, options);
  const proposal = await shop.testSheets.propose(order);
  const { sheet, written } = await makeTestSheetFiles(shop, order, options.out, say);
  say.answer({ sheet, remarks: proposal.remarks, places: await placesIn(shop, sheet.id), written }, () =>
    [
      proposal.standing,
      ...proposal.remarks,
      '',
      `Sheet ${spokenSheetId(sheet.id)}:`,
      ...written.map((file) => `  ${file}`),
    ].join('\n'),
  );
}

async function placesIn(shop: Shop, id: string): Promise<PlacedColour[]> {
  const order = await shop.testSheets.orderOf(id);
  if (order !== null) return placesOf(order);
  const fields = (await shop.testSheets.fieldsOf(id)) ?? [];
  return fields.map(({ rect, deviceRgb }) => ({ name: null, ...rect, deviceRgb, control: false }));
}

async function orderFrom(shop: Shop, options: Options): Promise<TestSheetOrderInput> {
  const { patches, seed, check, followUp, palette, grey, artwork } = options;
  const every = {
    setupId: options.setup ?? '',
    blankId: options.blank ?? '',
    ...(options.width === undefined ? {} : { widthMm: options.width }),
    ...(options.height === undefined ? {} : { heightMm: options.height }),
    ...(options.fabric ? { material: 'fabric' as const } : {}),
  };
  const counted = patches === undefined ? {} : { patches };
  if (check !== undefined) return { kind: 'check', ...every, ...counted, pathId: check };
  if (palette !== undefined) return { kind: 'palette', ...every, pathId: palette };
  if (grey) return { kind: 'grey', ...every };
  if (followUp !== undefined) {
    const order = { kind: 'follow-up' as const, ...every, ...counted, pathId: followUp };
    if (artwork === undefined) return order;
    await assertReadable(artwork);
    const kept = await shop.artwork.add(path.resolve(artwork), path.basename(artwork));
    return { ...order, towards: 'artwork', artworkId: kept.id };
  }
  return { kind: 'colour', ...every, ...counted, ...(seed === undefined ? {} : { seed }) };
}
