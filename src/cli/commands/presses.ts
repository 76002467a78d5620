import type { Command } from 'commander';
import type { PlatenCheck, PlatenCheckInput, Press } from '#contract';
import { Problem } from '#craft/problem';
import { table } from '../say.js';
import { catalogueCommand } from './catalogue.js';
import { globals, numberFrom, oneOf, withShop } from './common.js';

interface CheckOptions {
  readonly set?: number;
  readonly method: PlatenCheckInput['method'];
  readonly grid?: readonly [columns: number, rows: number];
  readonly emissivity?: number;
  readonly instrument?: number;
  readonly note?: string;
}

/** Presses, kept as blanks are, and what their platens were measured at. */
export function pressesCommand(): Command {
  const group = catalogueCommand<Press>(
    'presses',
    'presses, mug presses and ovens',
    (shop) => shop.presses,
    ['id', 'name', 'kind', 'platen', 'watts'],
    (press) => [
      press.id,
      press.name,
      press.kind,
      `${press.platenWidthMm} × ${press.platenDepthMm} mm`,
      press.watts === null ? 'not known' : String(press.watts),
    ],
  );
  group
    .command('check <id> [temperatures...]')
    .description(
      'keep temperatures of the platen in °C, row by row from the back, left to right, - where none was taken; without any: the checks kept',
    )
    .option('--set <°C>', 'what the display was set to', numberFrom('--set'))
    .option(
      '--method <how>',
      'probe (between pads), strips or infra-red',
      oneOf('--method', ['probe', 'strips', 'infra-red']),
      'probe',
    )
    .option('--grid <c>x<r>', 'columns x rows, as in 3x3 (default: one row)', gridFrom)
    .option('--emissivity <e>', 'infra-red: what the instrument was set to', numberFrom('--emissivity'))
    .option('--instrument <K>', '± of the instrument, by its maker', numberFrom('--instrument'))
    .option('--note <words>', 'to be kept with it')
    .action(async (id: string, words: string[], options: CheckOptions, command: Command) => {
      const { say, folder } = globals(command);
      if (words.length === 0 && options.set === undefined) {
        const checks = await withShop(folder, (shop) => shop.presses.checks(id));
        say.answer(checks, () => (checks.length === 0 ? 'Never measured.' : listed(checks)));
        return;
      }
      const input = inputFrom(words, options);
      const check = await withShop(folder, (shop) => shop.presses.addCheck(id, input));
      say.answer(check, () => check.sentences.join('\n'));
    });
  return group;
}

function inputFrom(words: readonly string[], options: CheckOptions): PlatenCheckInput {
  const { set, method, emissivity, instrument, note } = options;
  if (set === undefined)
    throw new Problem('request.invalid', 'It is not said what the display was set to.', {
      remedy: 'Write it as in: --set 200',
    });
  if (words.length === 0)
    throw new Problem('request.invalid', 'No temperature is given.', {
      remedy: 'Write them after the press, as in: dyewright presses check PRESS 196 198 197 --set 200',
    });
  const celsius = words.map(temperatureFrom);
  const [columns, rows] = options.grid ?? [celsius.length, 1];
  return {
    setC: set,
    method,
    columns,
    rows,
    celsius,
    ...(emissivity === undefined ? {} : { emissivitySet: emissivity }),
    ...(instrument === undefined ? {} : { instrumentK: instrument }),
    ...(note === undefined ? {} : { note }),
  };
}

function temperatureFrom(word: string): number | null {
  if (word === '-') return null;
  const value = Number(word.replace(',', '.'));
  if (word.trim() === '' || !Number.isFinite(value))
    throw new Problem('request.invalid', `“${word}” is no temperature.`, {
      remedy: 'Write degrees Celsius with spaces between, and - where none was taken.',
    });
  return value;
}

function gridFrom(word: string): readonly [number, number] {
  const found = /^(\d)\s*[x×]\s*(\d)$/i.exec(word);
  if (found === null)
    throw new Problem('request.invalid', `--grid wants columns and rows, not “${word}”.`, {
      remedy: 'Write it as in: --grid 3x3',
    });
  return [Number(found[1]), Number(found[2])];
}

const listed = (checks: readonly PlatenCheck[]): string =>
  table(
    ['taken', 'set', 'true less set', 'hottest less coolest', 'says'],
    checks.map(({ createdAt, setC, offsetK, spreadK, sentences }) => [
      createdAt.slice(0, 10),
      `${setC} °C`,
      `${offsetK.value.toFixed(1)} °C (${offsetK.low.toFixed(1)} to ${offsetK.high.toFixed(1)})`,
      `${spreadK.toFixed(1)} °C`,
      sentences[0] ?? '',
    ]),
  );
