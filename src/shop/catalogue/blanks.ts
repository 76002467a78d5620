import { type Blank, blankSchema } from '#contract';
import { developBlank } from '#craft/blank';
import { Problem } from '#craft/problem';
import { digestOf, missing, type Records } from '#shop/store';
import { checked } from '#shop/validate';
import { keepTypedRecipe } from './recipe-versions.js';

/** Saves and removals of records say what the record was when the person last saw it, if the door knows. */
export interface SaveOptions {
  /** A digest as `digestOf` gives; when the record is another by now: record.changed. */
  readonly expected?: string | undefined;
}

export class Blanks {
  constructor(
    private readonly records: Records,
    private readonly now: () => Date,
  ) {}

  list(): Promise<Blank[]> {
    return this.records.blanks.list();
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<Blank> {
    const blank = await this.records.blanks.get(id);
    if (blank === undefined) throw missing('blank', id);
    return blank;
  }

  /** Adds or replaces the blank of that id; another recipe becomes a version. Errors: blank.invalid, record.changed. */
  async save(id: string, value: unknown, options: SaveOptions = {}): Promise<Blank> {
    const blank = checked(blankSchema, value, 'The blank cannot be kept', 'blank.invalid');
    expectSameId(id, blank.id);
    // What no face can be developed from (a width of a hair) is refused here, not first when a sheet is wanted.
    developBlank(blank.shape);
    return this.records.together(async (records) => {
      const before = await records.blanks.get(blank.id);
      expectUnchanged(before, options.expected);
      const at = this.now().toISOString();
      await records.blanks.put(blank, at);
      await keepTypedRecipe(records, blank, before, at);
      return blank;
    });
  }

  /** Sheets already made keep their own copy of the blank, so a blank can always go. Errors: record.missing. */
  async remove(id: string): Promise<void> {
    if (!(await this.records.blanks.remove(id))) throw missing('blank', id);
  }
}

export function expectUnchanged(current: unknown, expected: string | undefined): void {
  if (expected === undefined || (current !== undefined && digestOf(current) === expected)) return;
  throw new Problem('record.changed', 'The record was changed by someone else since you opened it.', {
    remedy: 'Load it again, look at what changed, and make your change on the new one.',
  });
}

/** The id a record is addressed by and the one it says it has. */
export function expectSameId(named: string, said: string): void {
  if (named === said) return;
  throw new Problem(
    'request.invalid',
    `It is addressed as “${named.slice(0, 80)}” but says it is “${said}”.`,
    {
      remedy: 'Use the same id in both.',
      where: 'id',
    },
  );
}
