import type { MeasurementTable } from '#craft/cgats';
import type { ChartLayout, ChartPatch } from '#craft/testsheet';
import { patchName } from './patch-name.js';

export interface MatchedRows {
  /** For each patch of the sheet the rows that are of it, most often none or one. */
  readonly rowsOf: readonly (readonly number[])[];
  /** Rows that are none of the sheet's. */
  readonly strange: readonly number[];
}

/**
 * Which row of a file is which patch of the sheet: by device values where the file has them (among patches printed
 * alike by name, then in order), else by name, else in the order of the sheet when there are as many.
 * Null: it cannot be known.
 */
export function matchRows(table: MeasurementTable, layout: Pick<ChartLayout, 'patches'>): MatchedRows | null {
  const { patches } = layout;
  const names = patches.map(({ column, row }) => patchName(column, row));
  const saidNames = table.sampleIds.map((id) => id.trim().toUpperCase());
  if (table.device.space === 'RGB') return byDevice(table.device.rows, saidNames, patches, names);
  const known = saidNames.filter((name) => names.includes(name)).length;
  if (known > 0.5 * saidNames.length) {
    return collect(
      patches.length,
      saidNames.map((name) => names.indexOf(name)),
    );
  }
  if (saidNames.length !== patches.length) return null;
  return collect(
    patches.length,
    patches.map((_, i) => i),
  );
}

/** Programs that write device values in percent round to two or four digits: half an 8-bit step is far above that. */
const halfStep = 0.5;

function byDevice(
  rows: readonly (readonly number[])[],
  saidNames: readonly string[],
  patches: readonly ChartPatch[],
  names: readonly string[],
): MatchedRows {
  const alike = new Map<string, number[]>();
  patches.forEach(({ deviceRgb }, i) => {
    const key = deviceRgb.join();
    alike.set(key, [...(alike.get(key) ?? []), i]);
  });
  const turn = new Map<string, number>();
  const places = rows.map((rgb, i) => {
    const codes = rgb.map((v) => Math.round(255 * v));
    const close = rgb.every((v, c) => Math.abs(255 * v - codes[c]!) < halfStep);
    const key = codes.join();
    const members = close ? alike.get(key) : undefined;
    if (members === undefined) return -1;
    const named = members.find((member) => names[member] === saidNames[i]);
    if (named !== undefined) return named;
    const next = turn.get(key) ?? 0;
    turn.set(key, next + 1);
    return members[next % members.length]!;
  });
  return collect(patches.length, places);
}

function collect(count: number, places: readonly number[]): MatchedRows {
  const rowsOf: number[][] = Array.from({ length: count }, () => []);
  const strange: number[] = [];
  places.forEach((place, row) => {
    if (place < 0) strange.push(row);
    else rowsOf[place]!.push(row);
  });
  return { rowsOf, strange };
}
