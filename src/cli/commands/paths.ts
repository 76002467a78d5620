import { Command } from 'commander';
import { table } from '../say.js';
import { globals, readNamed, withShop } from './common.js';
import { pathInvertCommand, pathPredictCommand } from './path-ask.js';
import { pathAdaptCommand, pathBuildCommand, pathExportCommand } from './path-build.js';
import { pathShowCommand, pathVerifyCommand } from './path-check.js';
import { decimal } from './path-words.js';

/** Colour paths: what a print setup's colour is known from. Measured ones are built in path-build, asked in path-ask. */
export function pathsCommand(): Command {
  const group = new Command('path')
    .alias('paths')
    .description(
      'colour paths: list, import an ICC profile, build one from measurements or readings, ask it, verify it, remove',
    );
  group
    .command('list', { isDefault: true })
    .description('all colour paths')
    .action(async (_options, command: Command) => {
      const { say, folder } = globals(command);
      const all = await withShop(folder, (shop) => shop.paths.list());
      say.answer(all, () =>
        all.length === 0
          ? 'No colour path yet: pixels pass as sRGB and colour is not calibrated.'
          : table(
              ['id', 'name', 'ICC', 'intents', 'grade', 'expected ΔE00'],
              all.map((path) => [
                path.id,
                path.name,
                path.iccVersion,
                path.intents.join(', '),
                path.measurement?.grade ?? 'imported',
                path.measurement ? decimal(path.measurement.expectedError.meanDeltaE00, 2) : 'not known',
              ]),
            ),
      );
    });
  group
    .command('import <profile>')
    .description('keep an RGB output ICC profile as a colour path')
    .option('--name <name>', "what to call it (default: the profile's own description)", '')
    .option('--setup <id>', 'use it at once for this print setup')
    .action(async (file: string, options: { name: string; setup?: string }, command: Command) => {
      const { say, folder } = globals(command);
      const bytes = await readNamed(file);
      const path = await withShop(folder, async (shop) => {
        const kept = await shop.paths.importIcc(bytes, options.name);
        if (options.setup !== undefined) {
          const setup = await shop.setups.get(options.setup);
          await shop.setups.save(setup.id, { ...setup, colourPathId: kept.id });
        }
        return kept;
      });
      say.answer(path, () => `Kept “${path.name}” as ${path.id}.`);
    });
  group
    .command('remove <id>')
    .description('forget one that no print setup uses')
    .action(async (id: string, _options, command: Command) => {
      const { say, folder } = globals(command);
      await withShop(folder, (shop) => shop.paths.remove(id));
      say.answer({ removed: id }, () => `Removed ${id}.`);
    });
  for (const command of [
    pathBuildCommand(),
    pathAdaptCommand(),
    pathExportCommand(),
    pathPredictCommand(),
    pathInvertCommand(),
    pathVerifyCommand(),
    pathShowCommand(),
  ]) {
    group.addCommand(command);
  }
  return group;
}
