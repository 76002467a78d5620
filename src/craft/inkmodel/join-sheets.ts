import type { MeasurementTable } from '#craft/cgats';
import { deltaE00, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import { choleskyInPlace, solveCholesky } from '#craft/numerics';
import type { InkModel } from './types.js';

/** How one sheet came out beside another: Lab offset, changing with lightness. */
export interface SheetShift {
  /** Which of the tables. */
  readonly table: number;
  /** Lab at L* 50. */
  readonly offset: Triple;
  /** Further Lab for each 50 units of L* above it. */
  readonly slope: Triple;
  /** Over the sheet's own colours. */
  readonly meanDeltaE00: number;
}

/**
 * Prior standard deviations of offset and slope, Lab units: pressing and reading the same file twice differs by about one
 * (common practice). They keep a sheet with few patches from being moved by its noise.
 */
const priorSd = [1.5, 0.8] as const;
/** A shift smaller than this is not taken out: patches are read no better. */
const leastShift = 0.1;

/**
 * Several sheets of one path as one table. Sheets differ by a little shift they have in common: another press, another
 * lamp. The sheet with the most patches stays as it is; for the others the shift is the regression, in least squares
 * weighted by the model's doubt and the noise, of what was read over what the first sheet's model says. It is taken out.
 * @param learn learns a model from one table
 */
export function joinSheets(
  tables: readonly MeasurementTable[],
  learn: (table: MeasurementTable) => InkModel,
): { table: MeasurementTable; shifts: SheetShift[] } {
  const [only] = tables;
  if (only === undefined) throw new RangeError('no table to learn from');
  if (tables.length === 1) return { table: only, shifts: [] };
  const first = tables.reduce((best, table, i) => (sizeOf(table) > sizeOf(tables[best]!) ? i : best), 0);
  const model = learn(tables[first]!);
  const shifts: SheetShift[] = [];
  const moved = tables.map((table, i) => {
    if (i === first || table.lab === null) return table;
    const shift = shiftOf(model, table, table.lab);
    if (shift.meanDeltaE00 < leastShift) return table;
    shifts.push({ table: i, ...shift });
    return { ...table, lab: table.lab.map((lab) => unshifted(lab, shift)) };
  });
  return { table: together(moved), shifts };
}

const sizeOf = (table: MeasurementTable): number => table.device.rows.length;
const height = (l: number): number => (l - 50) / 50;

type Shift = Omit<SheetShift, 'table'>;

function shiftOf(model: InkModel, table: MeasurementTable, lab: readonly Triple[]): Shift {
  const said = model.predict(table.device.rows as unknown as readonly Triple[]);
  const offset: Triple3 = [0, 0, 0];
  const slope: Triple3 = [0, 0, 0];
  for (let j = 0; j < 3; j += 1) {
    const normal = Float64Array.of(1 / priorSd[0] ** 2, 0, 0, 1 / priorSd[1] ** 2);
    const right = new Float64Array(2);
    said.forEach((one, i) => {
      const residual = lab[i]![j]! - one.lab[j]!;
      const sd = Math.hypot(one.sdLab[j]!, model.noiseSd[j]!);
      // Huber's weight (Ann. Math. Stat. 35, 1964): a wrong patch must not move the sheet.
      const weight = Math.min(1, (2 * sd) / Math.max(1e-9, Math.abs(residual))) / sd ** 2;
      const h = height(one.lab[0]);
      normal[0] = normal[0]! + weight;
      normal[2] = normal[2]! + weight * h;
      normal[3] = normal[3]! + weight * h * h;
      right[0] = right[0]! + weight * residual;
      right[1] = right[1]! + weight * residual * h;
    });
    choleskyInPlace(normal, 2);
    const solved = solveCholesky(normal, 2, right);
    offset[j] = solved[0]!;
    slope[j] = solved[1]!;
  }
  const shift = { offset, slope };
  const meanDeltaE00 =
    lab.reduce((sum, one) => sum + deltaE00(one, unshifted(one, shift)), 0) / Math.max(1, lab.length);
  return { ...shift, meanDeltaE00 };
}

function unshifted(lab: Triple, { offset, slope }: Pick<Shift, 'offset' | 'slope'>): Triple3 {
  const h = height(lab[0]);
  return lab.map((v, j) => v - offset[j]! - slope[j]! * h) as Triple3;
}

function together(tables: readonly MeasurementTable[]): MeasurementTable {
  const lab = tables.every((table) => table.lab !== null) ? tables.flatMap((table) => table.lab ?? []) : null;
  const haveSd = tables.every((table) => table.sdLab !== null);
  return {
    device: {
      space: tables.every((table) => table.device.space === 'RGB') ? 'RGB' : 'none',
      rows: tables.flatMap((table) => table.device.rows),
    },
    lab,
    xyz: lab?.map((one) => xyzFromLab(one).map((v) => 100 * v) as Triple3) ?? null,
    // Spectra of a sheet that was moved are no longer its colours.
    spectra: null,
    sdLab: haveSd ? tables.flatMap((table) => table.sdLab ?? []) : null,
    sampleIds: tables.flatMap((table, i) => table.sampleIds.map((id) => `${i + 1}:${id}`)),
    keywords: new Map(tables.flatMap((table) => [...table.keywords])),
    remarks: [...new Set(tables.flatMap((table) => table.remarks))],
  };
}
