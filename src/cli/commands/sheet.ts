import path from 'node:path';
import { Command } from 'commander';
import type { Check, SheetProposal, SheetRequestInput } from '#contract';
import { exitNotRight } from '../exit-codes.js';
import { outFolder, putFile } from '../out-files.js';
import { assertReadable, globals, numberFrom, oneOf, stoppable, withShop } from './common.js';

interface Options {
  readonly blank: string;
  readonly setup: string;
  readonly place: 'fill' | 'fit' | 'free';
  readonly scale: number;
  readonly right: number;
  readonly down: number;
  readonly rotate: number;
  readonly copies: number;
  readonly bleed?: number;
  readonly ppi?: number;
  readonly intent?: 'relative' | 'perceptual' | 'saturation';
  readonly bpc?: 'on' | 'off';
  readonly format: 'pdf' | 'png' | 'tiff';
  readonly bits: '8' | '16';
  readonly tagged: boolean;
  readonly out: string;
  readonly look: boolean;
}

/** Artwork, blank and print setup in; a sheet and its press ticket out. */
export function sheetCommand(): Command {
  return new Command('sheet')
    .description('make a print sheet and its press ticket from a piece of artwork')
    .argument('<artwork>', 'PNG, JPEG, TIFF, WebP, GIF or SVG, as it should read on the piece')
    .requiredOption('--blank <id>', 'what is pressed (dyewright blanks)')
    .requiredOption('--setup <id>', 'printer, ink and paper (dyewright setups)')
    .option('--place <how>', 'fill, fit or free', oneOf('--place', ['fill', 'fit', 'free']), 'fill')
    .option('--scale <times>', 'with --place free: times the fitting size', numberFrom('--scale'), 1)
    .option('--right <mm>', 'move to the right', numberFrom('--right'), 0)
    .option('--down <mm>', 'move down', numberFrom('--down'), 0)
    .option('--rotate <degrees>', 'clockwise', numberFrom('--rotate'), 0)
    .option('--copies <n>', 'the same piece so many times', numberFrom('--copies'), 1)
    .option('--bleed <mm>', "instead of the blank's own", numberFrom('--bleed'))
    .option('--ppi <n>', "instead of the setup's own", numberFrom('--ppi'))
    .option(
      '--intent <intent>',
      "instead of the setup's own",
      oneOf('--intent', ['relative', 'perceptual', 'saturation']),
    )
    .option(
      '--bpc <on|off>',
      "black point compensation, instead of the setup's own",
      oneOf('--bpc', ['on', 'off']),
    )
    .option('--format <format>', 'pdf, png or tiff', oneOf('--format', ['pdf', 'png', 'tiff']), 'pdf')
    .option('--bits <n>', '8 or 16 (png, tiff)', oneOf('--bits', ['8', '16']), '8')
    .option('--tagged', 'carry the ICC profile instead of plain device RGB', false)
    .option('--out <folder>', 'where the files go', '.')
    .option('--look', 'only look: the checks, no sheet', false)
    .action(async (artwork: string, options: Options, command: Command) => {
      const { say, folder } = globals(command);
      await assertReadable(artwork);
      await withShop(folder, async (shop) => {
        const kept = await shop.artwork.add(path.resolve(artwork), path.basename(artwork));
        const request = requestFrom(kept.id, options);
        const proposal = await shop.sheets.propose(request);
        const wrong = proposal.checks.some((check) => check.level === 'stop');
        if (wrong) process.exitCode = exitNotRight;
        if (options.look || wrong) {
          say.answer(proposal, () => proposalWords(proposal));
          return;
        }
        const output = {
          format: options.format,
          bitsPerSample: Number(options.bits) as 8 | 16,
          colourTag: options.tagged ? ('tagged' as const) : ('device' as const),
        };
        const folderOut = await outFolder(options.out);
        const sheet = await shop.sheets.make(request, output, {
          signal: stoppable(),
          onProgress: (share, step) => say.progress(share, step),
        });
        const written: string[] = [];
        for (const file of sheet.files) {
          const target = path.join(folderOut, file.fileName);
          await putFile((await shop.sheets.openFile(sheet.id, file.fileName)).path, target);
          written.push(target);
        }
        say.answer({ sheet, written }, () =>
          [proposalWords(proposal), '', `Sheet ${sheet.id}:`, ...written.map((file) => `  ${file}`)].join(
            '\n',
          ),
        );
      });
    });
}

function requestFrom(artworkId: string, options: Options): SheetRequestInput {
  return {
    artworkId,
    blankId: options.blank,
    setupId: options.setup,
    copies: options.copies,
    placement: {
      mode: options.place,
      scale: options.scale,
      offsetXMm: options.right,
      offsetYMm: options.down,
      rotationDegrees: options.rotate,
    },
    ...(options.bleed === undefined ? {} : { bleedMm: options.bleed }),
    ...(options.ppi === undefined ? {} : { ppi: options.ppi }),
    ...(options.intent === undefined ? {} : { intent: options.intent }),
    ...(options.bpc === undefined ? {} : { blackPointCompensation: options.bpc === 'on' }),
  };
}

const levelWords: Readonly<Record<Check['level'], string>> = { stop: 'Stop', look: 'Look', note: 'Note' };

function proposalWords(proposal: SheetProposal): string {
  return [
    proposal.standing,
    ...proposal.checks.map(
      (check) => `  ${levelWords[check.level]}: ${check.title}. ${check.detail}\n        ${check.remedy}`,
    ),
    `  Colour: ${proposal.colour.sentence}`,
  ].join('\n');
}
