import type { ExpectedErrorFacts, Grade, ReadingPatch, TestSheetKind } from '#contract';
import { statedGrade, statedSheetId } from '#craft/cgats';
import type { Triple3 } from '#craft/colour';
import { Problem } from '#craft/problem';
import { spokenSheetId } from '#craft/sheet';
import { type ColourSheetOrder, planColourSheet } from '#craft/testsheet';
import { gradeErrors } from '#craft/verification';
import { measurementsOf } from '#shop/paths';
import { hexBeside } from './convert-light.js';
import { matchRows } from './match-rows.js';
import { patchName } from './patch-name.js';
import type { ReadResult } from './read-result.js';

export interface InstrumentAbout {
  readonly fileName: string;
  readonly order: ColourSheetOrder;
  readonly kind: TestSheetKind;
  readonly subject?: 'paper' | 'piece' | undefined;
}

/**
 * Hand-held spectrophotometers of one make agree within about this (makers’ data sheets, from memory; common practice);
 * where the pressing and the patch differ from place to place comes on top.
 */
const instrumentError: ExpectedErrorFacts = {
  meanDeltaE00: 0.4,
  p95DeltaE00: 1,
  restsOn: 'rule-of-thumb',
};
const statedRestsOn: Readonly<Record<Grade, ExpectedErrorFacts['restsOn']>> = {
  A: 'rule-of-thumb',
  B: 'calibration',
  C: 'calibration',
  D: 'published',
  E: 'rule-of-thumb',
};

/**
 * An instrument's file of a sheet's patches. A file that says of itself that its colours were scanned keeps that grade.
 * Errors: measurements.broken.
 */
export function readInstrumentFile(bytes: Uint8Array, about: InstrumentAbout): ReadResult {
  const { order, kind, fileName, subject = 'piece' } = about;
  const table = measurementsOf(bytes);
  const { lab } = table;
  if (lab === null) {
    throw new Problem('measurements.broken', 'The file holds no measured colours.', {
      remedy: 'Export Lab, XYZ or spectra from the instrument’s program.',
    });
  }
  const sheet = statedSheetId(table);
  if (sheet !== null && sheet !== order.sheetId) {
    throw new Problem(
      'scan.wrong-sheet',
      `The file is of test sheet ${spokenSheetId(sheet)}, not of ${spokenSheetId(order.sheetId)}.`,
      { remedy: 'Choose the file of this sheet.' },
    );
  }
  const { layout } = planColourSheet(order);
  const matched = matchRows(table, layout);
  const found = matched?.rowsOf.filter((rows) => rows.length > 0).length ?? 0;
  if (matched === null || found === 0) {
    throw new Problem(
      'measurements.broken',
      'None of the file’s rows can be told to be a patch of this sheet.',
      {
        remedy:
          'The file needs the sheet’s RGB device values, or patch names like A1 and B7, or one row for each patch in the order of the sheet.',
      },
    );
  }
  const ground = groundOf(lab);
  const patches = layout.patches.flatMap(({ column, row, deviceRgb, chosen }, index): ReadingPatch[] => {
    const rows = matched.rowsOf[index]!;
    if (rows.length === 0) return [];
    const mean = [0, 1, 2].map(
      (k) => rows.reduce((sum, at) => sum + lab[at]![k]!, 0) / rows.length,
    ) as Triple3;
    const sd = (table.sdLab?.[rows[0]!]?.map((v) => v / Math.sqrt(rows.length)) ?? [0, 0, 0]) as Triple3;
    return [
      {
        index,
        column,
        row,
        deviceRgb: [...deviceRgb],
        seenHex: hexBeside(mean, ground),
        lab: mean,
        sdLab: sd,
        usedShare: 1,
        warnings: [],
        sound: true,
        control: chosen === null,
      },
    ];
  });
  const stated = statedGrade(table);
  const grade = stated?.grade ?? 'A';
  const usual = gradeErrors[grade] ?? instrumentError;
  const expectedError: ExpectedErrorFacts =
    stated === null
      ? instrumentError
      : {
          meanDeltaE00: stated.meanDeltaE00 ?? usual.meanDeltaE00,
          p95DeltaE00: stated.p95DeltaE00 ?? usual.p95DeltaE00,
          restsOn: stated.meanDeltaE00 === null ? 'rule-of-thumb' : statedRestsOn[grade],
        };
  const asked = layout.patches.filter(({ chosen }) => chosen !== null).length;
  const got = patches.filter(({ control }) => !control).length;
  return {
    facts: {
      sheetId: order.sheetId,
      sheetKind: kind,
      from: 'instrument',
      subject,
      fileName,
      readerId: null,
      readerName: null,
      grade,
      expectedError,
      sentences: [
        `Took ${got} of ${asked} patches from the file.`,
        grade === 'A'
          ? 'Colours by an instrument (grade A).'
          : `The file says of itself that its colours are of grade ${grade}.`,
        ...strangeRows(matched.strange, table.sampleIds),
        ...missingPatches(layout.patches.filter((_, i) => matched.rowsOf[i]!.length === 0)),
        ...table.remarks,
      ],
      patchCount: asked,
      soundCount: got,
      groundLab: ground,
      repeatability: null,
      evenness: null,
      lightRatio: null,
      pixelsPerMm: null,
      routeStrip: [],
    },
    kept: { format: 'dyewright-reading', version: 1, patches, light: null },
    overlay: null,
  };
}

/** Nothing measured is the ground itself: the lightest patch is as near as the file comes to it. */
const groundOf = (lab: readonly (readonly [number, number, number])[]): Triple3 => {
  const lightest = lab.reduce((light, one) => (one[0] > light[0] ? one : light));
  return [...lightest];
};

function strangeRows(rows: readonly number[], ids: readonly string[]): string[] {
  if (rows.length === 0) return [];
  return [
    `${rows.length} ${rows.length === 1 ? 'row of the file is' : 'rows of the file are'} none of this sheet’s and left out: ${listed(rows.map((row) => ids[row] ?? String(row + 1)))}.`,
  ];
}

function missingPatches(
  patches: readonly { column: number; row: number; chosen: number | null }[],
): string[] {
  const wanted = patches.filter(({ chosen }) => chosen !== null);
  if (wanted.length === 0) return [];
  return [`Not in the file: ${listed(wanted.map(({ column, row }) => patchName(column, row)))}.`];
}

const mostListed = 8;
const listed = (names: readonly string[]): string =>
  names.length <= mostListed
    ? names.join(', ')
    : `${names.slice(0, mostListed).join(', ')} and ${names.length - mostListed} more`;
