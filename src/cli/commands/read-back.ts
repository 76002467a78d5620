import { Command } from 'commander';
import type { ReadBack } from '#contract';
import { exitNotRight } from '../exit-codes.js';
import { assertReadable, globals, oneOf, withShop } from './common.js';

interface Options {
  readonly of: 'paper' | 'piece';
}

/** What a scan or photo of a printed sheet tells: which one, mirrored how often, printed at what size. */
export function readBackCommand(): Command {
  return new Command('read-back')
    .description('read a scan or photo of a printed sheet: which sheet, mirrored once?, printed at 100 %?')
    .argument('<picture>')
    .option(
      '--of <what>',
      'paper: the printed sheet; piece: the marks as pressed',
      oneOf('--of', ['paper', 'piece']),
      'paper',
    )
    .action(async (picture: string, options: Options, command: Command) => {
      const { say, folder } = globals(command);
      await assertReadable(picture);
      const reading = await withShop(folder, (shop) => shop.readBack(picture, options.of));
      if (!isRight(reading)) process.exitCode = exitNotRight;
      say.answer(reading, () => reading.sentences.join('\n'));
    });
}

const isRight = (reading: ReadBack): boolean =>
  reading.mirroring === 'right' && (reading.scale === 'right' || reading.scale === 'unknown');
