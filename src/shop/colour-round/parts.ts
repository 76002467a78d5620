import type { Reading, ReadingPatch, TestSheet, TestSheetSnapshot } from '#contract';
import type { MeasurementTable } from '#craft/cgats';
import type { Triple } from '#craft/colour';
import type { ColourSheetOrder } from '#craft/testsheet';
import type { Blanks, Setups } from '#shop/catalogue';
import type { Jobs } from '#shop/jobs';
import type { ColourPaths } from '#shop/paths';
import type { Records } from '#shop/store';

/** What the round needs of readings. */
export interface ReadingsPort {
  get(id: string): Promise<Reading>;
  list(filter?: { sheetId?: string }): Promise<Reading[]>;
  patches(id: string): Promise<ReadingPatch[]>;
  /** Sound patches: device RGB 0..1, absolute Lab with its noise. */
  tableOf(id: string): Promise<MeasurementTable>;
}

/** What the round needs of test sheets. */
export interface TestSheetsPort {
  get(id: string): Promise<TestSheet>;
  snapshot(id: string): Promise<TestSheetSnapshot>;
  orderOf(sheetId: string): Promise<ColourSheetOrder | null>;
  wantedOf(sheetId: string): Promise<readonly WantedPatch[] | null>;
}

/** What a patch of a check sheet should be, beside the pressed white. */
export interface WantedPatch {
  /** Which of the order's patches. */
  readonly chosen: number;
  readonly relativeLab: Triple;
  readonly kind: 'colour' | 'neutral' | 'limited';
}

export interface ColourRoundParts {
  readonly records: Records;
  readonly testSheets: TestSheetsPort;
  readonly readings: ReadingsPort;
  readonly paths: ColourPaths;
  readonly setups: Setups;
  readonly blanks: Blanks;
  readonly jobs: Jobs;
  readonly now: () => Date;
}
