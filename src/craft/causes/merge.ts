import { type Placed, readPlaced, wrong } from './placed.js';
import type { BookFile } from './types.js';

export const sections = ['findings', 'questions', 'causes', 'remedies'] as const;
export type Section = (typeof sections)[number];
export type Entries = Record<Section, Map<string, Placed>>;

/**
 * Puts files together, later over earlier: an entry with a new id is added; one with a known id changes only the
 * fields it gives (of `findings`, `answers`, `cures` and `cost` only the keys it gives; `null` takes a key out);
 * `"remove": true` takes the entry out.
 */
export function mergeFiles(files: readonly BookFile[]): Entries {
  const entries: Entries = {
    findings: new Map(),
    questions: new Map(),
    causes: new Map(),
    remedies: new Map(),
  };
  for (const file of files) {
    const seen = new Set<string>();
    const top = membersOf(readPlaced(file), 'A file of the book');
    for (const [name, list] of top) {
      if (name === 'note') continue;
      const section = sections.find((one) => one === name);
      if (section === undefined) {
        throw wrong(
          list,
          `“${name.slice(0, 64)}” is no part of the book`,
          `Use ${sections.join(', ')} or note.`,
        );
      }
      if (!Array.isArray(list.value))
        throw wrong(list, `“${name}” must be a list`, 'Put it in square brackets.');
      for (const entry of list.value as readonly Placed[]) putIn(entries[section], entry, section, seen);
    }
  }
  return entries;
}

function putIn(into: Map<string, Placed>, entry: Placed, section: Section, seen: Set<string>): void {
  const fields = membersOf(entry, 'An entry');
  const id = fields.get('id')?.value;
  if (typeof id !== 'string' || !/^[a-z0-9][a-z0-9-]{0,63}$/.test(id)) {
    throw wrong(
      fields.get('id') ?? entry,
      'An entry needs an id',
      'Give an id of lower-case letters, digits and hyphens.',
    );
  }
  if (seen.has(`${section}/${id}`)) {
    throw wrong(entry, `“${id}” stands twice in this file`, 'Give one of them another id.');
  }
  seen.add(`${section}/${id}`);
  if (fields.get('remove')?.value === true) {
    if (!into.delete(id)) throw wrong(entry, `“${id}” is not there to be removed`, 'Take this entry out.');
    return;
  }
  const known = into.get(id);
  into.set(id, known === undefined ? entry : over(known, entry, 1));
}

/** Later over earlier, key by key down to `depth` levels below. */
function over(earlier: Placed, later: Placed, depth: number): Placed {
  if (!(earlier.value instanceof Map) || !(later.value instanceof Map)) return later;
  const members = new Map<string, Placed>(earlier.value);
  for (const [key, value] of later.value as Map<string, Placed>) {
    const before = members.get(key);
    if (value.value === null && depth < 1) members.delete(key);
    else if (before !== undefined && depth > 0) members.set(key, over(before, value, depth - 1));
    else members.set(key, value);
  }
  return { ...later, value: members };
}

export function membersOf(placed: Placed, what: string): Map<string, Placed> {
  if (placed.value instanceof Map) return placed.value;
  throw wrong(placed, `${what} must be an object`, 'Put it in curly brackets.');
}
