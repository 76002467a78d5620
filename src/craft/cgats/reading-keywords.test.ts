import { expect, test } from 'vitest';
import { readingKeywords, readMeasurements, statedGrade, statedSheetId, writeCgats } from './index.js';

const table = {
  device: { space: 'RGB', rows: [[0, 0.5, 1]] },
  lab: [[50, 1, 2]],
  xyz: null,
  spectra: null,
  sdLab: null,
  sampleIds: ['A1'],
  keywords: new Map(),
  remarks: [],
} as const;

test('a table of scanned colours read back in is not taken for an instrument’s', () => {
  const text = writeCgats(table, {
    originator: 'Dyewright',
    keywords: readingKeywords({
      grade: 'D',
      meanDeltaE00: 5.25,
      p95DeltaE00: 11,
      sheetId: '7K3M9QX4PA',
      reader: 'The "flat" one',
      subject: 'piece',
    }),
  });
  const again = readMeasurements(text);
  expect(statedGrade(again)).toEqual({ grade: 'D', meanDeltaE00: 5.25, p95DeltaE00: 11 });
  expect(statedSheetId(again)).toBe('7K3M9QX4PA');
  expect(again.lab![0]![0]).toBeCloseTo(50, 3);
});

test('a file that says nothing has no grade; one that says nonsense has a poor one', () => {
  expect(statedGrade({ keywords: new Map() })).toBeNull();
  expect(statedGrade({ keywords: new Map([['DYEWRIGHT_GRADE', 'excellent']]) })).toEqual({
    grade: 'D',
    meanDeltaE00: null,
    p95DeltaE00: null,
  });
});
