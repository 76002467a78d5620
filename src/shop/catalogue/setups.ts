import { type PrintSetup, printSetupSchema } from '#contract';
import { Problem } from '#craft/problem';
import { missing, type Records } from '#shop/store';
import { checked } from '#shop/validate';
import { expectSameId, expectUnchanged, type SaveOptions } from './blanks.js';

export class Setups {
  constructor(
    private readonly records: Records,
    private readonly now: () => Date,
  ) {}

  list(): Promise<PrintSetup[]> {
    return this.records.setups.list();
  }

  /** Errors: record.missing. */
  async get(id: string): Promise<PrintSetup> {
    const setup = await this.records.setups.get(id);
    if (setup === undefined) throw missing('print setup', id);
    return setup;
  }

  /** Adds or replaces the print setup of that id. Errors: setup.invalid (also for a colour path that is not there), record.changed. */
  async save(id: string, value: unknown, options: SaveOptions = {}): Promise<PrintSetup> {
    const setup = checked(printSetupSchema, value, 'The print setup cannot be kept', 'setup.invalid');
    expectSameId(id, setup.id);
    expectPrintablePaper(setup);
    return this.records.together(async (records) => {
      if (setup.colourPathId !== null && (await records.colourPaths.get(setup.colourPathId)) === undefined) {
        throw new Problem(
          'setup.invalid',
          `The print setup names a colour path “${setup.colourPathId}” that is not here.`,
          {
            remedy: 'Choose a colour path from the list, or none.',
            where: 'colourPathId',
          },
        );
      }
      expectUnchanged(await records.setups.get(setup.id), options.expected);
      await records.setups.put(setup, this.now().toISOString());
      return setup;
    });
  }

  /** Sheets already made keep their own copy of the setup, so a setup can always go. Errors: record.missing. */
  async remove(id: string): Promise<void> {
    if (!(await this.records.setups.remove(id))) throw missing('print setup', id);
  }
}

function expectPrintablePaper({ paper }: PrintSetup): void {
  if (Math.min(paper.widthMm, paper.heightMm) > 2 * paper.marginMm) return;
  throw new Problem('setup.invalid', 'The margins leave nothing of the paper to print on.', {
    remedy: 'Correct the paper size or the margin: it is what the printer cannot reach at each edge.',
    where: 'paper.marginMm',
  });
}
