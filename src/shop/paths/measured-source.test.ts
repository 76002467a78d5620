import { expect, test } from 'vitest';
import { readMeasurements } from '#craft/cgats';
import { sourceOfFile } from './measured-source.js';

const rows =
  'RGB_R RGB_G RGB_B LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\n0 0 0 10 0 0\n255 255 255 95 0 0\nEND_DATA\n';
const cgats = (head: string) => readMeasurements(`CGATS.17\n${head}BEGIN_DATA_FORMAT\n${rows}`);
const csv = readMeasurements('R,G,B,L,a,b\n0,0,0,10,0,0\n255,255,255,95,0,0\n');

test.each([
  ['an instrument’s head', cgats('INSTRUMENTATION "Spot meter"\n'), 'A', null],
  [
    'a grade and an error',
    cgats('DYEWRIGHT_GRADE "B"\nDYEWRIGHT_EXPECTED_DELTA_E00 "1.20 2.50"\n'),
    'B',
    1.2,
  ],
  ['a scanner’s tag, whatever else the head says', cgats('ORIGINATOR "x"\nDYEWRIGHT_GRADE "D"\n'), 'D', 9.5],
  ['a grade that is none', cgats('DYEWRIGHT_GRADE "A+"\n'), 'D', 9.5],
  ['no word on its origin', csv, 'A', null],
] as const)('a file with %s', (_, table, grade, mean) => {
  const source = sourceOfFile(table);
  expect(source.grade).toBe(grade);
  expect(source.error?.meanDeltaE00 ?? null).toBe(mean);
});

test('a person who knows better is believed, and that is said', () => {
  const source = sourceOfFile(csv, 'D');
  expect(source).toMatchObject({ grade: 'D' });
  expect(sourceOfFile(csv).table.remarks.at(-1)).toMatch(/taken for an instrument/);
  expect(source.table.remarks.at(-1)).toMatch(/given by hand/);
});
