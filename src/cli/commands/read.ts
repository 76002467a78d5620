import path from 'node:path';
import { Command } from 'commander';
import type { Reading, TestSheetKind } from '#contract';
import { Problem } from '#craft/problem';
import { type ColourSheetOrder, colourSheetRecipe } from '#craft/testsheet';
import type { Shop } from '#shop';
import { cgatsOf, type PictureParts, type ReadResult, readPicture } from '#shop/readings';
import { closeVision } from '#shop/vision';
import { assertPlaces, putBytes } from '../out-bytes.js';
import type { Say } from '../say.js';
import { assertReadable, globals, oneOf, readNamed, stoppable, withShop } from './common.js';

interface Options {
  readonly paper?: boolean;
  readonly piece?: boolean;
  readonly sheet?: string;
  readonly reader?: string;
  readonly from?: 'scan' | 'photo';
  readonly cardValues?: string;
  readonly cardCorners?: string;
  readonly instrument: boolean;
  readonly out?: string;
  readonly overlay?: string;
  readonly keep: boolean;
}

/** From a scan, a photo or an instrument's file of a test sheet to colours, with their grade. */
export function readCommand(): Command {
  return new Command('read')
    .description('read a scan, a photo or an instrument’s file of a colour test sheet')
    .argument('<file>', 'PNG, TIFF or JPEG; with --instrument CGATS or CSV')
    .option('--paper', 'it is the printed paper, not pressed yet')
    .option('--piece', 'it is the pressed piece')
    .option('--sheet <id>', 'the test sheet that is meant, as its number stands on it')
    .option('--reader <id>', 'the scanner or phone, as the shop knows it')
    .option('--from <what>', 'scan or photo', oneOf('--from', ['scan', 'photo']))
    .option('--card-values <file>', 'CGATS file of a reference card lying in the picture')
    .option('--card-corners <x,y,…>', 'its four outer corners, pixels, going round: eight numbers')
    .option('--instrument', 'the file is an instrument’s, of the patches of --sheet', false)
    .option('--out <file>', 'write the measurements as CGATS')
    .option('--overlay <file>', 'write the picture with what was read drawn over it, .jpg')
    .option('--keep', 'keep the reading in the shop', false)
    .action(async (file: string, options: Options, command: Command) => {
      const { say, folder } = globals(command);
      refuseMixed(options);
      await assertReadable(file);
      await assertPlaces(options.out, options.overlay);
      if (options.instrument) await readInstrument(file, options, folder, say);
      else await readPictureFile(file, options, folder, say);
    });
}

function refuseMixed(options: Options): void {
  const refuse = (message: string, remedy: string): never => {
    throw new Problem('request.invalid', message, { remedy });
  };
  if (options.paper && options.piece) refuse('It cannot be both --paper and --piece.', 'Say one of them.');
  if ((options.cardValues === undefined) !== (options.cardCorners === undefined))
    refuse('--card-values and --card-corners go together.', 'Name both.');
  if (!options.instrument) return;
  if (options.sheet === undefined) refuse('--instrument needs --sheet.', 'Name the sheet that was measured.');
  if ((options.reader ?? options.cardValues ?? options.overlay) !== undefined)
    refuse('An instrument’s file has no picture.', 'Leave --reader, --card-… and --overlay away.');
}

const subjectOf = ({ paper, piece }: Options): 'paper' | 'piece' | undefined =>
  paper ? 'paper' : piece ? 'piece' : undefined;

async function readInstrument(file: string, options: Options, folder: string, say: Say): Promise<void> {
  const bytes = await readNamed(file);
  const about = { fileName: path.basename(file), sheetId: options.sheet ?? '', subject: subjectOf(options) };
  await withShop(folder, async (shop) => {
    if (!options.keep) {
      await put(shop.readings.lookAtFile(bytes, about), null, options, say);
      return;
    }
    const reading = await shop.readings.importFile(bytes, about);
    await put(keptResult(shop, reading), reading, options, say);
  });
}

async function readPictureFile(file: string, options: Options, folder: string, say: Say): Promise<void> {
  const card =
    options.cardValues === undefined
      ? undefined
      : { corners: cornersFrom(options.cardCorners ?? ''), values: await readNamed(options.cardValues) };
  const subject = subjectOf(options);
  const { sheet: sheetId, reader: readerId, from } = options;
  const fileName = path.basename(file);
  const work = {
    signal: stoppable(),
    onProgress: (share: number, step: string) => say.progress(share, step),
  };
  if (options.keep || (sheetId ?? readerId) !== undefined) {
    await withShop(folder, async (shop) => {
      const about = { fileName, subject, sheetId, readerId, from, card };
      if (!options.keep) return put(shop.readings.look(file, about, work), null, options, say);
      const reading = await shop.readings.read(file, about, work);
      return put(keptResult(shop, reading), reading, options, say);
    });
    return;
  }
  try {
    const about = { fileName, subject, reader: null, readerMap: null, from, card };
    await put(readPicture(file, about, partsAlone(folder), work), null, options, say);
  } finally {
    await closeVision();
  }
}

/** The shop is opened only when a sheet's own code does not say its patches. */
function partsAlone(folder: string): PictureParts {
  let known: { order: ColourSheetOrder | null; kind: TestSheetKind | null } | null = null;
  return {
    orderOf: async (id) => {
      known = await withShop(folder, async (shop) => ({
        order: await shop.readings.sheets.orderOf(id),
        kind: await shop.readings.sheets.kindOf(id),
      }));
      return known.order;
    },
    kindOf: async (id) => known?.kind ?? (colourSheetRecipe(id) === null ? null : 'colour'),
    pixelLimit: 500_000_000,
    onFault: (error) => {
      if (process.env.DYEWRIGHT_DEBUG === '1') console.error(error);
    },
  };
}

async function keptResult(shop: Shop, reading: Reading): Promise<ReadResult> {
  const overlay = reading.overlay === null ? null : await shop.readings.overlay(reading.id);
  return {
    facts: reading,
    kept: {
      format: 'dyewright-reading',
      version: 1,
      patches: await shop.readings.patches(reading.id),
      light: null,
    },
    overlay:
      overlay === null || reading.overlay === null ? null : { jpeg: overlay.bytes, ...reading.overlay },
  };
}

async function put(
  work: ReadResult | Promise<ReadResult>,
  reading: Reading | null,
  options: Options,
  say: Say,
): Promise<void> {
  const { facts, kept, overlay } = await work;
  const written: string[] = [];
  if (options.out !== undefined) {
    const createdAt = reading?.createdAt ?? new Date().toISOString();
    await putBytes(options.out, cgatsOf(kept.patches, facts, createdAt));
    written.push(options.out);
  }
  if (options.overlay !== undefined && overlay !== null) {
    await putBytes(options.overlay, overlay.jpeg);
    written.push(options.overlay);
  }
  say.answer({ reading: reading ?? facts, kept: reading !== null, patches: kept.patches, written }, () =>
    [
      ...facts.sentences,
      ...(reading === null ? [] : [`Kept as reading ${reading.id}.`]),
      ...written.map((one) => `Wrote ${one}.`),
    ].join('\n'),
  );
}

function cornersFrom(text: string): [number, number][] {
  const numbers = text.split(',').map((word) => Number(word.trim()));
  if (numbers.length !== 8 || !numbers.every(Number.isFinite)) {
    throw new Problem('request.invalid', '--card-corners wants eight numbers: x,y of four corners.', {
      remedy: 'Write it as in: --card-corners 100,80,900,85,905,600,98,590',
    });
  }
  return [0, 2, 4, 6].map((i) => [numbers[i]!, numbers[i + 1]!]);
}
