import { isProblem, Problem } from '#craft/problem';
import { exitCodes } from './exit-codes.js';

/** Where a command's answer goes: people get sentences, programs get one JSON value on standard output. */
export interface Say {
  readonly json: boolean;
  answer(value: unknown, words: () => string): void;
  progress(share: number, step: string): void;
}

export function makeSay(json: boolean): Say {
  let lastPercent = -1;
  const live = !json && process.stderr.isTTY === true;
  return {
    json,
    answer(value, words) {
      if (live && lastPercent >= 0) process.stderr.write('\r\u001b[K');
      process.stdout.write(json ? `${JSON.stringify(value, null, 2)}\n` : `${words()}\n`);
    },
    progress(share, step) {
      const percent = Math.floor(share * 100);
      if (!live || percent === lastPercent) return;
      lastPercent = percent;
      process.stderr.write(`\r\u001b[K${String(percent).padStart(3)} %  ${step}`);
    },
  };
}

/** Say what went wrong and what to do; never a stack trace (DYEWRIGHT_DEBUG=1 shows it to whoever mends the program). */
export function sayProblem(thrown: unknown, json: boolean): number {
  const problem = isProblem(thrown)
    ? thrown
    : new Problem('internal.fault', 'Something went wrong inside Dyewright.', {
        remedy:
          'Try once more. If it comes again, run with DYEWRIGHT_DEBUG=1 and keep what it prints for a report.',
        cause: thrown,
      });
  if (json) {
    const { code, message, remedy, where } = problem;
    process.stdout.write(
      `${JSON.stringify({ problem: { code, detail: message, remedy, where: where ?? null } }, null, 2)}\n`,
    );
  } else {
    const { message, where, remedy } = problem;
    const place = where === undefined || message.includes(where) ? '' : ` (${where})`;
    process.stderr.write(`${message}${place}\n${remedy}\n`);
  }
  if (process.env.DYEWRIGHT_DEBUG === '1') console.error(thrown);
  return exitCodes[problem.kind];
}

/** Rows under headings, padded by their widest cell. */
export function table(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = headings.map((heading, column) =>
    Math.max(heading.length, ...rows.map((row) => (row[column] ?? '').length)),
  );
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, i) => cell.padEnd(widths[i] ?? 0))
      .join('  ')
      .trimEnd();
  return [line(headings), line(widths.map((width) => '─'.repeat(width))), ...rows.map(line)].join('\n');
}
