import { access, constants, readFile, stat } from 'node:fs/promises';
import type { Command } from 'commander';
import { Problem } from '#craft/problem';
import { openShop, type Shop } from '#shop';
import { makeSay, type Say } from '../say.js';
import { shopFolder } from '../shop-folder.js';

interface Globals {
  readonly json?: boolean;
  readonly shop?: string;
}

/** What `--shop` and `--json` say, wherever on the line they stand. */
export function globals(command: Command): { say: Say; folder: string } {
  const options = command.optsWithGlobals<Globals>();
  return { say: makeSay(options.json === true), folder: shopFolder(options.shop) };
}

/** Open the shop for one command and let it go again, whatever happens. */
export async function withShop<T>(folder: string, use: (shop: Shop) => Promise<T>): Promise<T> {
  const shop = await openShop({ folder });
  try {
    return await use(shop);
  } finally {
    await shop.close();
  }
}

/** A file named on the command line. Errors: file.missing with the name as given. */
export async function readNamed(file: string): Promise<Uint8Array> {
  return readFile(file).catch((cause: unknown) => {
    throw unreadable(file, cause);
  });
}

/** For files too large to read whole here. Errors: file.missing; request.invalid for a folder, a pipe or a device. */
export async function assertReadable(file: string): Promise<void> {
  const found = await stat(file).catch((cause: unknown) => {
    throw unreadable(file, cause);
  });
  if (!found.isFile()) {
    throw new Problem(
      'request.invalid',
      found.isDirectory() ? `${file} is a folder, not a file.` : `${file} is not a plain file.`,
      { remedy: 'Name one picture file.' },
    );
  }
  await access(file, constants.R_OK).catch((cause: unknown) => {
    throw unreadable(file, cause);
  });
}

function unreadable(file: string, cause: unknown): Problem {
  return new Problem('file.missing', `The file ${file} cannot be read.`, {
    remedy: 'Check the name and that you may read it.',
    cause,
  });
}

/** A JSON file named on the command line; `remedy` says where one like it is to be had. */
export async function readNamedJson(
  file: string,
  remedy = 'Start from one that `show --json` prints, and change that.',
): Promise<unknown> {
  const text = new TextDecoder().decode(await readNamed(file));
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new Problem('request.invalid', `The file ${file} is not JSON.`, {
      remedy,
      cause,
    });
  }
}

/** An AbortSignal that Ctrl-C sets off, so that nothing half-written is left. */
export function stoppable(): AbortSignal {
  const controller = new AbortController();
  for (const name of ['SIGINT', 'SIGTERM'] as const) process.once(name, () => controller.abort());
  return controller.signal;
}

/** A number from a command-line word, or a problem that names the option. */
export function numberFrom(option: string): (word: string) => number {
  return (word) => {
    const value = Number(word);
    if (word.trim() === '' || !Number.isFinite(value)) {
      throw new Problem('request.invalid', `${option} wants a number, not “${word}”.`, {
        remedy: `Write it as in: ${option} 2`,
      });
    }
    return value;
  };
}

/** One of a few words, or a problem that lists them. */
export function oneOf<const T extends string>(option: string, words: readonly T[]): (word: string) => T {
  return (word) => {
    const found = words.find((candidate) => candidate === word);
    if (found === undefined) {
      throw new Problem('request.invalid', `${option} is one of ${words.join(', ')}, not “${word}”.`, {
        remedy: `Write ${option} ${words[0]}, for instance.`,
      });
    }
    return found;
  };
}
