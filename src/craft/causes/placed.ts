import { parse } from '@humanwhocodes/momoa';
import { Problem } from '#craft/problem';
import type { BookFile } from './types.js';

/** A JSON value that knows where it was written, so that a person can be told the file and the line. */
export interface Placed {
  readonly fileName: string;
  readonly line: number;
  readonly value: string | number | boolean | null | readonly Placed[] | ReadonlyMap<string, Placed>;
}

const mostCharacters = 2_000_000;

/** Reads JSON; comments and trailing commas are allowed, a key given twice is not. @throws Problem `causes.invalid` */
export function readPlaced(file: BookFile): Placed {
  if (file.text.length > mostCharacters) {
    throw wrong(
      { fileName: file.fileName, line: 1 },
      'The file is too long',
      'Split it: 2 million characters at most.',
    );
  }
  let body: unknown;
  try {
    // A byte order mark is left by some editors.
    body = parse(file.text.replace(/^\uFEFF/, ''), { mode: 'jsonc', allowTrailingCommas: true }).body;
    return placed(body as JsonNode, file.fileName);
  } catch (thrown) {
    if (thrown instanceof Problem) throw thrown;
    const line = (thrown as { line?: unknown }).line;
    throw wrong(
      { fileName: file.fileName, line: typeof line === 'number' ? line : 1 },
      'This is not JSON',
      'Look for a missing comma, quote or bracket there or just above.',
    );
  }
}

/** The Problem that says where in the book something is wrong. */
export function wrong(at: { fileName: string; line: number }, what: string, remedy: string): Problem {
  return new Problem('causes.invalid', `${at.fileName}, line ${at.line}: ${what}.`, {
    remedy,
    where: `${at.fileName}:${at.line}`,
  });
}

/** What is used of the parser's tree. */
interface JsonNode {
  readonly type: string;
  readonly loc: { readonly start: { readonly line: number } };
  readonly value?: string | number | boolean;
  readonly elements?: readonly { readonly value: JsonNode }[];
  readonly members?: readonly { readonly name: JsonNode; readonly value: JsonNode }[];
}

function placed(node: JsonNode, fileName: string): Placed {
  const at = { fileName, line: node.loc.start.line };
  switch (node.type) {
    case 'Null':
      return { ...at, value: null };
    case 'Array':
      return { ...at, value: node.elements!.map((element) => placed(element.value, fileName)) };
    case 'Object': {
      const members = new Map<string, Placed>();
      for (const { name, value } of node.members!) {
        const key = String(name.value);
        if (members.has(key)) {
          throw wrong(
            { fileName, line: name.loc.start.line },
            `“${key.slice(0, 64)}” is given twice`,
            'Keep one of the two.',
          );
        }
        members.set(key, placed(value, fileName));
      }
      return { ...at, value: members };
    }
    default:
      return { ...at, value: node.value! };
  }
}
