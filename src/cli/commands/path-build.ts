import path from 'node:path';
import { Command } from 'commander';
import { type ColourPath, type Grade, gradeSchema } from '#contract';
import type { DeviceFull } from '#craft/cgats';
import { Problem } from '#craft/problem';
import {
  type BuildPathOptions,
  closePathThreads,
  inkModelJson,
  inkSource,
  type LearntPath,
  learnFrom,
  profileOf,
} from '#shop/paths';
import { assertPlaces, putBytes } from '../out-bytes.js';
import type { Say } from '../say.js';
import { globals, oneOf, readNamed, stoppable, withShop } from './common.js';
import { fullOption, isPathId, measurementWords, modelNamed } from './path-words.js';

interface MakeOptions {
  readonly name?: string;
  readonly out?: string;
  readonly icc: '2' | '4';
  readonly modelOut?: string;
  readonly full?: '1' | '100' | '255';
  readonly setup?: string;
  readonly grade?: Grade;
  readonly keep: boolean;
}

interface BuildOptions extends MakeOptions {
  readonly reading?: string[];
  readonly base?: string;
  readonly onPaper?: boolean;
}

const iccVersion = oneOf('--icc', ['2', '4']);

/** From a file of measured patches to a colour path. */
export function pathBuildCommand(): Command {
  return withMakeOptions(new Command('build'))
    .description('learn a colour path from measured patches, or from readings of test sheets, and keep it')
    .argument('[file]', 'CGATS or CSV: RGB device values with Lab, XYZ or spectra (D50, 2°)')
    .option('--reading <ids...>', 'readings that the shop has, of one sheet and its follow-ups')
    .option('--base <path>', 'with --reading: a measured path to adapt from')
    .option('--on-paper', 'with --reading: take readings of unpressed paper too')
    .action(async (file: string | undefined, options: BuildOptions, command: Command) => {
      if ((file === undefined) === (options.reading === undefined)) {
        throw new Problem('request.invalid', 'Give either a file of measurements or --reading.', {
          remedy: 'Name a CGATS or CSV file, or --reading with the ids that dyewright read --keep told.',
        });
      }
      if (file === undefined) await makeFromReadings(options.reading ?? [], options, command);
      else await make(file, undefined, options, command);
    });
}

/** A known path moved to another paper or blank. */
export function pathAdaptCommand(): Command {
  return withMakeOptions(new Command('adapt'))
    .description('from a known path and 20 to 50 measured patches, a path for another paper or blank')
    .argument('<path>', 'id of a measured colour path, or a model file that --model-out wrote')
    .argument('<file>', 'CGATS or CSV of the new patches')
    .action(async (known: string, file: string, options: MakeOptions, command: Command) => {
      await make(file, known, options, command);
    });
}

/** The profile of a path or a model, as a file. */
export function pathExportCommand(): Command {
  return new Command('export')
    .description('write a colour path as an ICC profile')
    .argument('<path>', 'id of a colour path, or a model file that --model-out wrote')
    .requiredOption('--out <file>', 'the .icc to write')
    .option('--icc <version>', '2 or 4 (default: as the path has it, else 2)', iccVersion)
    .option('--name <name>', 'description in the profile (default: the name of the path)')
    .action(
      async (known: string, options: { out: string; icc?: '2' | '4'; name?: string }, command: Command) => {
        const { say, folder } = globals(command);
        await assertPlaces(options.out);
        const made = await profileFor(known, options, folder, say);
        await putBytes(options.out, made.bytes);
        const answer = {
          out: options.out,
          name: made.name,
          iccVersion: made.version,
          bytes: made.bytes.length,
        };
        say.answer(answer, () => `Wrote ${options.out}: “${made.name}”, ICC ${made.version}.`);
      },
    );
}

function withMakeOptions(command: Command): Command {
  return fullOption(command)
    .option('--name <name>', 'what to call it (default: the name of the file)')
    .option('--out <file>', 'write the ICC profile here too')
    .option('--icc <version>', 'ICC version 2 (every program opens it) or 4', iccVersion, '2')
    .option('--model-out <file>', 'write the model here too, as JSON')
    .option('--setup <id>', 'use it at once for this print setup')
    .option(
      '--grade <letter>',
      'how the colours were come by, A (an instrument) to E, where the file does not say',
      oneOf('--grade', gradeSchema.options),
    )
    .option('--no-keep', 'only write the files named, keep nothing in the shop');
}

async function make(
  file: string,
  known: string | undefined,
  options: MakeOptions,
  command: Command,
): Promise<void> {
  const { say, folder } = globals(command);
  if (!options.keep && (options.setup !== undefined || (options.out ?? options.modelOut) === undefined)) {
    throw new Problem('request.invalid', '--no-keep needs --out or --model-out, and goes without --setup.', {
      remedy: 'Name a file to write, or leave --no-keep away.',
    });
  }
  await assertPlaces(options.out, options.modelOut);
  const bytes = await readNamed(file);
  const build: BuildPathOptions = {
    name: options.name ?? path.parse(file).name,
    iccVersion: Number(options.icc) as 2 | 4,
    deviceFull: options.full === undefined ? undefined : (Number(options.full) as DeviceFull),
    base: known === undefined ? undefined : await modelNamed(known, folder),
    grade: options.grade,
    signal: stoppable(),
    onProgress: (share, step) => say.progress(share, step),
  };
  const made = options.keep ? await keep(folder, bytes, build, options.setup) : await onlyLearn(bytes, build);
  const written: string[] = [];
  const put = async (target: string | undefined, content: Uint8Array | string) => {
    if (target === undefined) return;
    await putBytes(target, content);
    written.push(target);
  };
  await put(options.out, made.learnt.icc);
  await put(options.modelOut, inkModelJson(made.learnt.data));
  const answer = { path: made.path, measurement: made.path?.measurement ?? made.learnt.measurement, written };
  say.answer(answer, () =>
    [
      ...(made.path === null ? [] : [`Kept “${made.path.name}” as ${made.path.id}.`]),
      ...measurementWords(made.learnt.measurement),
      ...written.map((one) => `Wrote ${one}.`),
    ].join('\n'),
  );
}

/** Readings say themselves how they were come by and what they belong to. */
async function makeFromReadings(
  readingIds: readonly string[],
  options: BuildOptions,
  command: Command,
): Promise<void> {
  const { say, folder } = globals(command);
  if (!options.keep || options.full !== undefined || options.grade !== undefined) {
    throw new Problem('request.invalid', '--no-keep, --full and --grade do not go with --reading.', {
      remedy: 'Leave them away: readings of the shop know what they are.',
    });
  }
  await assertPlaces(options.out, options.modelOut);
  const request = {
    readingIds,
    name: options.name ?? '',
    ...(options.base === undefined ? {} : { basePathId: options.base }),
    ...(options.setup === undefined ? {} : { setupId: options.setup }),
    ...(options.onPaper === undefined ? {} : { onPaper: options.onPaper }),
  };
  const made = await withShop(folder, async (shop) => {
    const kept = await shop.colourRound.learn(request, {
      signal: stoppable(),
      onProgress: (share, step) => say.progress(share, step),
    });
    const icc = await shop.paths.profileAs(kept, Number(options.icc) as 2 | 4);
    return { kept, icc, model: await shop.paths.model(kept) };
  });
  const written: string[] = [];
  const put = async (target: string | undefined, content: Uint8Array | string) => {
    if (target === undefined) return;
    await putBytes(target, content);
    written.push(target);
  };
  await put(options.out, made.icc);
  await put(options.modelOut, inkModelJson(made.model));
  const { kept } = made;
  say.answer({ path: kept, measurement: kept.measurement, written }, () =>
    [
      `Kept “${kept.name}” as ${kept.id}.`,
      ...(kept.measurement === undefined ? [] : measurementWords(kept.measurement)),
      ...written.map((one) => `Wrote ${one}.`),
    ].join('\n'),
  );
}

interface Made {
  readonly path: ColourPath | null;
  readonly learnt: LearntPath;
}

function keep(
  folder: string,
  bytes: Uint8Array,
  build: BuildPathOptions,
  setupId: string | undefined,
): Promise<Made> {
  return withShop(folder, async (shop) => {
    const setup = setupId === undefined ? null : await shop.setups.get(setupId);
    const made = await shop.paths.build(bytes, build);
    if (setup !== null) await shop.setups.save(setup.id, { ...setup, colourPathId: made.path.id });
    return made;
  });
}

async function onlyLearn(bytes: Uint8Array, build: BuildPathOptions): Promise<Made> {
  try {
    return { path: null, learnt: await learnFrom(bytes, build, new Date()) };
  } finally {
    await closePathThreads();
  }
}

async function profileFor(
  known: string,
  options: { readonly icc?: '2' | '4'; readonly name?: string },
  folder: string,
  say: Say,
): Promise<{ bytes: Uint8Array; name: string; version: string }> {
  if (isPathId(known)) {
    const kept = await withShop(folder, async (shop) => {
      const one = await shop.paths.get(known);
      const asKept =
        options.name === undefined && (options.icc === undefined || one.iccVersion.startsWith(options.icc));
      return asKept ? { one, bytes: (await shop.paths.profile(one)).bytes } : null;
    });
    if (kept !== null) return { bytes: kept.bytes, name: kept.one.name, version: kept.one.iccVersion };
  }
  const model = await modelNamed(known, folder);
  const name = options.name ?? path.parse(model.name).name;
  const version = options.icc ?? '2';
  try {
    const bytes = await profileOf(inkSource(model.data), {
      name,
      iccVersion: Number(version) as 2 | 4,
      now: new Date(),
      signal: stoppable(),
      onProgress: (share, step) => say.progress(share, step),
    });
    return { bytes, name, version };
  } finally {
    await closePathThreads();
  }
}
