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
    const { what, remedy } = otherwise[kind] ?? otherwise.palette;
    throw new Problem('scan.wrong-sheet', `Sheet ${spokenSheetId(sheetId)} is ${what}.`, { remedy });
  }
}

/** Sheets that hold no chart, and what is done with them. */
const otherwise: Partial<Record<TestSheetKind, { what: string; remedy: string }>> & {
  palette: { what: string; remedy: string };
} = {
  grey: {
    what: 'a grey sheet: it is judged by eye, not by a scan',
    remedy: 'Look at it beside a grey card and enter what you see.',
  },
  palette: {
    what: 'a palette: it is for choosing colours from, not for measuring',
    remedy: 'Scan a colour test sheet or a check sheet.',
  },
  ladder: {
    what: 'a ladder: its coupons tell of the press, not of colours',
    remedy: 'Read it under Press, or with: dyewright ladder read.',
  },
  evenness: {
    what: 'an evenness sheet: it tells of the press, not of colours',
    remedy: 'Read it under Press, or with: dyewright evenness read.',
  },
};
