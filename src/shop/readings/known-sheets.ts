import type { TestSheetKind } from '#contract';
import { Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';
import type { ColourSheetOrder } from '#craft/testsheet';
import type { Records } from '#shop/store';
import type { TestSheets } from '#shop/test-sheets';

/** What the shop's record knows of the sheets in pictures. */
export class KnownSheets {
  constructor(
    private readonly records: Records,
    private readonly testSheets: TestSheets,
  ) {}

  async kindOf(sheetId: string): Promise<TestSheetKind | null> {
    return (await this.records.testSheets.get(sheetId))?.kind ?? null;
  }

  /** Null: not in the record. Errors: scan.wrong-sheet for sheets that are for eyes only. */
  async orderOf(sheetId: string): Promise<ColourSheetOrder | null> {
    const order = await this.testSheets.orderOf(sheetId);
    if (order !== null) return order;
    const kind = await this.kindOf(sheetId);
    if (kind === null) return null;
    throw kind === 'grey'
      ? new Problem(
          'scan.wrong-sheet',
          `Sheet ${spokenSheetId(sheetId)} is a grey sheet: it is judged by eye, not by a scan.`,
          { remedy: 'Look at it beside a grey card and enter what you see.' },
        )
      : new Problem(
          'scan.wrong-sheet',
          `Sheet ${spokenSheetId(sheetId)} is a palette: it is for choosing colours from, not for measuring.`,
          { remedy: 'Scan a colour test sheet or a check sheet.' },
        );
  }
}
