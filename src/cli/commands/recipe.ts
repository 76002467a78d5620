import { Command } from 'commander';
import type { AdoptRecipe, RecipeOnPress, RecipeSuggestion, RecipeVersion, SuggestRequest } from '#contract';
import { Problem } from '#craft/problem';
import { type Say, table } from '../say.js';
import { globals, numberFrom, readNamedJson, withShop } from './common.js';

/** `recipe`: what a blank is pressed with, where it comes from, what to set. */
export function recipeCommand(): Command {
  const group = new Command('recipe').description(
    'time and temperature of a blank: suggest a start, show, history, adopt',
  );
  group
    .command('suggest')
    .description('a start recipe for a blank never pressed, carried over from one that works')
    .requiredOption('--blank <id>', 'the blank')
    .option('--like <id>', 'the blank that works; else the one most like it')
    .option('--press <id>', 'on this press')
    .option('--platen <C>', 'true temperature, °C; else the known recipe’s', numberFrom('--platen'))
    .option('--thickness <mm>', 'of the blank; else usual for its kind', numberFrom('--thickness'))
    .option('--like-thickness <mm>', 'of the one that works', numberFrom('--like-thickness'))
    .action(async (options: SuggestOptions, command: Command) => {
      const { say, folder } = globals(command);
      saySuggestion(say, await withShop(folder, (shop) => shop.recipes.suggest(requestOf(options))));
    });
  group
    .command('show')
    .description('the recipe in use, and what to set on a press')
    .requiredOption('--blank <id>', 'the blank')
    .option('--press <id>', 'on this press; else the one it was found on')
    .action(async ({ blank, press }: { blank: string; press?: string }, command: Command) => {
      const { say, folder } = globals(command);
      const shown = await withShop(folder, async (shop) => ({
        version: (await shop.recipes.versions(blank))[0]!,
        onPress: await shop.recipes.onPress(blank, press),
      }));
      sayShown(say, shown);
    });
  group
    .command('history')
    .description('all versions, newest first')
    .requiredOption('--blank <id>', 'the blank')
    .action(async ({ blank }: { blank: string }, command: Command) => {
      const { say, folder } = globals(command);
      const versions = await withShop(folder, (shop) => shop.recipes.versions(blank));
      say.answer(versions, () =>
        table(
          ['version', 'recipe', 'rests on', 'since', 'in words'],
          versions.map(({ number, recipe, ground, createdAt }) => [
            String(number),
            figures(recipe),
            ground.kind,
            createdAt.slice(0, 10),
            ground.words,
          ]),
        ),
      );
    });
  group
    .command('adopt')
    .description('make a recipe the blank’s: one of --ladder, --number, --like, --file')
    .requiredOption('--blank <id>', 'the blank')
    .option('--ladder <sheet>', 'the middle of this ladder’s window')
    .option('--number <n>', 'an earlier version again, by its number', numberFrom('--number'))
    .option('--like <id>', 'carried over from this blank: with --platen and --seconds')
    .option('--platen <C>', 'true temperature, °C', numberFrom('--platen'))
    .option('--seconds <s>', 'time', numberFrom('--seconds'))
    .option('--file <json>', 'a recipe as typed: a JSON file as in the blank’s record')
    .option('--words <text>', 'what a typed recipe rests on')
    .option('--press <id>', 'the press it was found on')
    .action(async (options: AdoptOptions, command: Command) => {
      const { say, folder } = globals(command);
      const request = await adoptionOf(options);
      const version = await withShop(folder, (shop) => shop.recipes.adopt(options.blank, request));
      say.answer(version, () =>
        [`Version ${version.number}: ${figures(version.recipe)}.`, version.ground.words].join('\n'),
      );
    });
  return group;
}

interface SuggestOptions {
  readonly blank: string;
  readonly like?: string;
  readonly press?: string;
  readonly platen?: number;
  readonly thickness?: number;
  readonly likeThickness?: number;
}

interface AdoptOptions {
  readonly blank: string;
  readonly ladder?: string;
  readonly number?: number;
  readonly like?: string;
  readonly platen?: number;
  readonly seconds?: number;
  readonly file?: string;
  readonly words?: string;
  readonly press?: string;
}

const requestOf = ({
  blank,
  like,
  press,
  platen,
  thickness,
  likeThickness,
}: SuggestOptions): SuggestRequest => ({
  blankId: blank,
  ...(like === undefined ? {} : { knownBlankId: like }),
  ...(press === undefined ? {} : { pressId: press }),
  ...(platen === undefined ? {} : { platenC: platen }),
  ...(thickness === undefined ? {} : { thicknessMm: thickness }),
  ...(likeThickness === undefined ? {} : { knownThicknessMm: likeThickness }),
});

async function adoptionOf(options: AdoptOptions): Promise<AdoptRecipe> {
  const { ladder, number, like, file, platen, seconds, press } = options;
  const named = [ladder, number, like, file].filter((one) => one !== undefined);
  if (named.length !== 1)
    throw new Problem('request.invalid', 'A recipe is adopted from one thing at a time.', {
      remedy: 'Give one of --ladder, --number, --like and --file.',
    });
  const pressId = press === undefined ? {} : { pressId: press };
  if (ladder !== undefined) return { from: 'ladder', ladderId: ladder, ...pressId };
  if (number !== undefined) return { from: 'version', number };
  if (like !== undefined) {
    if (platen === undefined || seconds === undefined)
      throw new Problem('request.invalid', 'A recipe carried over wants its temperature and time.', {
        remedy: 'Add --platen and --seconds; recipe suggest tells them.',
      });
    return { from: 'heat', knownBlankId: like, platenC: platen, dwellSeconds: seconds, ...pressId };
  }
  const recipe = (await readNamedJson(
    file!,
    'Start from the recipe that `blanks show` prints, and change that.',
  )) as Extract<AdoptRecipe, { from: 'typed' }>['recipe'];
  return { from: 'typed', recipe, ...(options.words === undefined ? {} : { words: options.words }) };
}

const figures = ({ platenC, dwellSeconds, pressure }: RecipeVersion['recipe']): string =>
  `${platenC} °C, ${dwellSeconds} s, ${pressure} pressure`;

function sayShown(say: Say, shown: { version: RecipeVersion; onPress: RecipeOnPress }): void {
  say.answer(shown, () =>
    [
      figures(shown.version.recipe),
      shown.onPress.words,
      `Version ${shown.version.number}, ${shown.version.createdAt.slice(0, 10)}: ${shown.version.ground.words}`,
      '',
      ...shown.version.recipe.steps.map((step, i) => `${i + 1}. ${step}`),
    ].join('\n'),
  );
}

function saySuggestion(say: Say, suggestion: RecipeSuggestion): void {
  say.answer(suggestion, () =>
    [
      ...suggestion.sentences,
      '',
      ...(suggestion.ladder.length === 0
        ? []
        : [
            `Coupons to make it sure, at ${suggestion.platenC} °C: ${suggestion.ladder.map((step) => `${step.dwellSeconds} s`).join(' · ')}`,
            '',
          ]),
      'Taken as',
      ...suggestion.assumed.map((line) => `  ${line}`),
      '',
      ...suggestion.cautions.map(({ text }) => `! ${text}`),
    ].join('\n'),
  );
}
