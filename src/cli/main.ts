#!/usr/bin/env node
import { Command, CommanderError } from 'commander';
import { Problem } from '#craft/problem';
import { programVersion } from '#shop';
import { blanksCommand, setupsCommand } from './commands/catalogue.js';
import { colourSheetCommand } from './commands/colour-sheet.js';
import { convertCommand } from './commands/convert.js';
import { evennessCommand } from './commands/evenness.js';
import { heatCommand } from './commands/heat.js';
import { ladderCommand } from './commands/ladder.js';
import { pathsCommand } from './commands/paths.js';
import { pressesCommand } from './commands/presses.js';
import { readCommand } from './commands/read.js';
import { readBackCommand } from './commands/read-back.js';
import { readerCommand } from './commands/reader.js';
import { recipeCommand } from './commands/recipe.js';
import { serveCommand } from './commands/serve.js';
import { sheetCommand } from './commands/sheet.js';
import { exitCodeHelp, exitCodes } from './exit-codes.js';
import { sayProblem } from './say.js';

const program = new Command('dyewright')
  .description('From artwork to a correct dye-sublimation sheet: exact size, right colour, mirrored once.')
  .version(programVersion)
  .option('--shop <folder>', 'the shop folder (default: $DYEWRIGHT_SHOP, or ~/Dyewright)')
  .option('--json', 'answer with one JSON value on standard output')
  .addHelpText('after', exitCodeHelp)
  .showHelpAfterError('(dyewright --help lists the commands)')
  .exitOverride();

for (const command of [
  serveCommand(),
  sheetCommand(),
  colourSheetCommand(),
  readCommand(),
  readerCommand(),
  readBackCommand(),
  ladderCommand(),
  evennessCommand(),
  convertCommand(),
  blanksCommand(),
  setupsCommand(),
  pressesCommand(),
  pathsCommand(),
  heatCommand(),
  recipeCommand(),
]) {
  program.addCommand(inherit(command));
}

const json = process.argv.includes('--json');
// Whoever read the answer may have had enough of it (`| head`): that is no fault.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  process.exit(error.code === 'EPIPE' ? 0 : exitCodes.disk);
});

try {
  await program.parseAsync(process.argv);
} catch (thrown) {
  // Commander has already said what was wrong with the words; 0 is --help and --version.
  if (!(thrown instanceof CommanderError)) process.exitCode = sayProblem(thrown, json);
  else if (thrown.exitCode === 0) process.exitCode = 0;
  else process.exitCode = json ? sayProblem(misworded(thrown), json) : 2;
}

/** Programs that asked for JSON get it for a mistyped line too. */
function misworded(error: CommanderError): Problem {
  return new Problem('request.invalid', `${error.message.replace(/^error: /, '')}.`, {
    remedy: 'dyewright --help lists the commands; dyewright <command> --help what one takes.',
    cause: error,
  });
}

/** `--shop` and `--json` may stand after the command too, where people write them. */
function inherit(command: Command): Command {
  command.exitOverride();
  const targets = command.commands.length > 0 ? command.commands : [command];
  for (const target of targets) {
    target.exitOverride();
    target.option('--shop <folder>', 'the shop folder').option('--json', 'answer in JSON');
  }
  return command;
}
