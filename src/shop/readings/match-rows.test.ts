import { expect, test } from 'vitest';
import type { MeasurementTable } from '#craft/cgats';
import { choosePatches, planColourSheet } from '#craft/testsheet';
import { matchRows } from './match-rows.js';
import { patchName } from './patch-name.js';

const { layout } = planColourSheet({
  sheetId: '0000000000',
  widthMm: 148,
  heightMm: 210,
  marginMm: 3,
  material: 'hard',
  seed: 4,
  patches: choosePatches(60, 4),
  mirrorOnWriting: true,
});
const { patches } = layout;
const names = patches.map(({ column, row }) => patchName(column, row));

const tableOf = (
  sampleIds: readonly string[],
  rgb: readonly (readonly number[])[] | null,
): MeasurementTable => ({
  device: rgb === null ? { space: 'none', rows: sampleIds.map(() => []) } : { space: 'RGB', rows: rgb },
  lab: null,
  xyz: null,
  spectra: null,
  sdLab: null,
  sampleIds,
  keywords: new Map(),
  remarks: [],
});
const each = patches.map((_, i) => [i]);

test('letters run on as spreadsheets have them', () => {
  expect([0, 25, 26, 51, 52, 701, 702].map((column) => patchName(column, 0))).toEqual([
    'A1',
    'Z1',
    'AA1',
    'AZ1',
    'BA1',
    'ZZ1',
    'AAA1',
  ]);
});

test('device values tell the patch in any order; names part patches that are printed alike', () => {
  const order = patches.map((_, i) => (7 * i) % patches.length);
  const rgb = order.map((i) => patches[i]!.deviceRgb.map((v) => Math.round((1000 * v) / 255) / 1000));
  const named = matchRows(
    tableOf(
      order.map((i) => names[i]!),
      rgb,
    ),
    layout,
  )!;
  expect(named.strange).toEqual([]);
  named.rowsOf.forEach((rows, i) => {
    expect(rows.map((row) => order[row])).toEqual([i]);
  });
  const numbered = matchRows(
    tableOf(
      order.map((_, i) => String(i + 1)),
      rgb,
    ),
    layout,
  )!;
  expect(numbered.rowsOf.every((rows) => rows.length === 1)).toBe(true);
  numbered.rowsOf.forEach((rows, i) => {
    expect(patches[order[rows[0]!]!]!.deviceRgb).toEqual(patches[i]!.deviceRgb);
  });
});

test('a device value between two codes, or of no patch, is strange', () => {
  const between = [(patches[0]!.deviceRgb[0] + 0.5) / 255, 0.2, 0.3];
  expect(matchRows(tableOf(['1', '2'], [between, [0.123, 0.77, 0.31]]), layout)!.strange).toEqual([0, 1]);
});

test('without device values names tell, small letters too; else as many rows as patches, in order; else nothing', () => {
  expect(
    matchRows(
      tableOf(
        names.map((name) => ` ${name.toLowerCase()} `),
        null,
      ),
      layout,
    )!.rowsOf,
  ).toEqual(each);
  expect(
    matchRows(
      tableOf(
        patches.map((_, i) => String(i + 1)),
        null,
      ),
      layout,
    )!.rowsOf,
  ).toEqual(each);
  expect(matchRows(tableOf(['1', '2', '3'], null), layout)).toBeNull();
});
