import { membersOf } from './merge.js';
import { type Placed, wrong } from './placed.js';

/** Reads the fields of one entry, with the line in every complaint; `done()` refuses fields it was never asked for. */
export interface Fields {
  readonly at: Placed;
  text(name: string, fallback?: string): string;
  number(name: string, low: number, high: number, fallback?: number): number;
  numberOrNull(name: string, low: number, high: number): number | null;
  oneOf<T extends string>(name: string, choices: readonly T[], fallback?: T): T;
  /** An optional object's members. */
  members(name: string): ReadonlyMap<string, Placed>;
  /** An optional list. */
  list(name: string): readonly Placed[];
  optional(name: string): Placed | undefined;
  done(): void;
}

export function fieldsOf(placed: Placed, what: string): Fields {
  const all = membersOf(placed, what);
  const asked = new Set<string>(['id']);
  const get = (name: string): Placed | undefined => {
    asked.add(name);
    return all.get(name);
  };
  const missing = (name: string) =>
    wrong(placed, `${what} has no ${name}`, `Write "${name}" into it; docs/causes.md says what it holds.`);

  return {
    at: placed,
    text(name, fallback) {
      const field = get(name);
      if (field === undefined) {
        if (fallback === undefined) throw missing(name);
        return fallback;
      }
      const text = field.value;
      if (typeof text !== 'string' || text.length > 600 || (text.trim() === '' && fallback === undefined)) {
        throw wrong(
          field,
          `“${name}” of ${what} must be a text of 1 to 600 characters`,
          'Write it in quotes.',
        );
      }
      return text;
    },
    number(name, low, high, fallback) {
      const field = get(name);
      if (field !== undefined) return numberIn(field, low, high, `“${name}” of ${what}`);
      if (fallback === undefined) throw missing(name);
      return fallback;
    },
    numberOrNull(name, low, high) {
      const field = get(name);
      return field === undefined || field.value === null
        ? null
        : numberIn(field, low, high, `“${name}” of ${what}`);
    },
    oneOf(name, choices, fallback) {
      const field = get(name);
      if (field === undefined) {
        if (fallback === undefined) throw missing(name);
        return fallback;
      }
      const found = choices.find((choice) => choice === field.value);
      if (found === undefined) {
        throw wrong(
          field,
          `“${name}” of ${what} is none of those known`,
          `Use one of: ${choices.join(', ')}.`,
        );
      }
      return found;
    },
    members(name) {
      const field = get(name);
      return field === undefined ? new Map() : membersOf(field, `“${name}” of ${what}`);
    },
    list(name) {
      const field = get(name);
      if (field === undefined) return [];
      if (!Array.isArray(field.value)) {
        throw wrong(field, `“${name}” of ${what} must be a list`, 'Put it in square brackets.');
      }
      return field.value as readonly Placed[];
    },
    optional: get,
    done() {
      for (const [name, field] of all) {
        if (!asked.has(name)) {
          throw wrong(
            field,
            `${what} has a field “${name.slice(0, 64)}” that means nothing here`,
            `Look for a slip of spelling; fields are ${[...asked].join(', ')}.`,
          );
        }
      }
    },
  };
}

export function numberIn(field: Placed, low: number, high: number, what: string): number {
  const { value } = field;
  if (typeof value !== 'number' || !(value >= low && value <= high)) {
    throw wrong(field, `${what} must be a number from ${low} to ${high}`, 'Change it there.');
  }
  return value;
}
