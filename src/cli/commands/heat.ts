import { Command } from 'commander';
import type { HeatCurve, HeatLook, HeatQuestion } from '#contract';
import { Problem } from '#craft/problem';
import type { Say } from '../say.js';
import { globals, numberFrom, oneOf, readNamedJson, withShop } from './common.js';
import { textCurve } from './text-curve.js';

interface HeatOptions {
  readonly blank?: string;
  readonly press?: string;
  readonly platen?: number;
  readonly seconds?: number;
  readonly pressure?: 'light' | 'medium' | 'firm';
  readonly thickness?: number;
  readonly start?: number;
  readonly room?: number;
  readonly pre?: number;
  readonly both?: boolean;
}

/** `heat`: a blank in a press, or a stack of one's own from a JSON file. */
export function heatCommand(): Command {
  return new Command('heat')
    .description('how heat goes through a blank in a press, or through any stack')
    .argument('[stack]', 'a stack as JSON: layers, platens, phases (examples/stack-tile.json)')
    .option('--blank <id>', 'a blank of the shop instead')
    .option('--press <id>', 'on this press; else a usual one')
    .option('--platen <C>', 'true temperature, °C; else the recipe’s', numberFrom('--platen'))
    .option('--seconds <s>', 'time pressed; else the recipe’s', numberFrom('--seconds'))
    .option('--pressure <word>', 'light, medium or firm', oneOf('--pressure', ['light', 'medium', 'firm']))
    .option('--thickness <mm>', 'of the blank; else usual for its kind', numberFrom('--thickness'))
    .option('--start <C>', 'of the blank when it comes', numberFrom('--start'))
    .option('--room <C>', 'temperature of the room', numberFrom('--room'))
    .option('--pre <s>', 'pressed empty before', numberFrom('--pre'))
    .option('--both', 'heated from below too')
    .action(async (file: string | undefined, options: HeatOptions, command: Command) => {
      const { say, folder } = globals(command);
      if ((file === undefined) === (options.blank === undefined))
        throw new Problem('request.invalid', 'Name either a file with a stack or a blank.', {
          remedy: 'As in: heat examples/stack-tile.json, or: heat --blank tile-ceramic-108',
        });
      if (file !== undefined) {
        const stack = await readNamedJson(file, 'Start from examples/stack-tile.json, and change that.');
        sayCurve(say, await withShop(folder, (shop) => shop.heatDesk.run(stack)));
      } else {
        sayLook(say, await withShop(folder, (shop) => shop.heatDesk.look(questionOf(options))));
      }
    });
}

function questionOf({
  blank,
  press,
  platen,
  seconds,
  pressure,
  thickness,
  start,
  room,
  pre,
  both,
}: HeatOptions) {
  return {
    blankId: blank!,
    ...(press === undefined ? {} : { pressId: press }),
    ...(platen === undefined ? {} : { platenC: platen }),
    ...(seconds === undefined ? {} : { dwellSeconds: seconds }),
    ...(pressure === undefined ? {} : { pressure }),
    ...(thickness === undefined ? {} : { thicknessMm: thickness }),
    ...(start === undefined ? {} : { blankStartC: start }),
    ...(room === undefined ? {} : { roomC: room }),
    ...(pre === undefined ? {} : { prePressSeconds: pre }),
    ...(both === undefined ? {} : { bothSides: both }),
  } satisfies HeatQuestion;
}

function sayLook(say: Say, look: HeatLook): void {
  say.answer(look, () => {
    const [dye, heater] = look.courses;
    // Cooling goes on long after: the curve is for what happens in the press.
    const until = look.phases.filter(({ name }) => name !== 'cool').at(-1)!.toSeconds;
    const count = look.seconds.filter((at) => at <= until).length;
    const part = <T>(values: readonly T[]): T[] => values.slice(0, count);
    const curve = textCurve(
      part(look.seconds),
      { celsius: part(dye!.celsius), low: part(dye!.low ?? []), high: part(dye!.high ?? []) },
      { celsius: part(heater!.celsius) },
    );
    return [
      look.sentences[0]!,
      '',
      curve,
      '         ● where the dye goes   ░ where it may lie   ─ what heats it',
      '',
      ...look.sentences.slice(1),
      '',
      'Taken as',
      ...look.assumed.map((line) => `  ${line}`),
      '',
      ...look.cautions.map(({ text }) => `! ${text}`),
    ].join('\n');
  });
}

function sayCurve(say: Say, curve: HeatCurve): void {
  say.answer(curve, () => {
    const heater = curve.courses.find(({ name }) => name === 'upper platen') ?? null;
    return [
      ...(curve.title === '' ? [] : [curve.title, '']),
      textCurve(curve.seconds, curve.courses[0]!, heater),
      `         ● ${curve.courses[0]!.name}${heater === null ? '' : '   ─ upper platen'}`,
      '',
      ...curve.sentences,
    ].join('\n');
  });
}
