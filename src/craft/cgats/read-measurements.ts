import { deltaE00, labFromLch, labFromXyz, type Triple, type Triple3, xyzFromLab } from '#craft/colour';
import { broken, shown } from './broken.js';
import { parseCgats, type TextTable, textLimits } from './cgats-text.js';
import { type Columns, findColumns } from './columns.js';
import { parseCsv } from './csv-text.js';
import { type DeviceFull, deviceRows } from './device-range.js';
import { numberOf } from './numbers.js';
import { reflectanceToXyz } from './spectra.js';
import type { MeasurementTable, SpectralRows } from './types.js';

export interface ReadMeasurementsOptions {
  /** What device values are counted to; left out: the largest one tells. */
  readonly deviceFull?: DeviceFull;
}

/**
 * Reads measured patches out of a CGATS.17 / ISO 28178 text or a CSV. Colours come from spectra where there are any,
 * else from XYZ, Lab or LCh, which must be for D50 and the 2° observer.
 * @throws Problem `measurements.broken` with a sentence for whatever is wrong
 */
export function readMeasurements(text: string, options: ReadMeasurementsOptions = {}): MeasurementTable {
  if (text.length > textLimits.characters) {
    broken('The file is larger than any table of measurements.', 'Choose the file the instrument wrote.');
  }
  if (text.includes('\0')) {
    broken('The file is not text.', 'Choose the CGATS or CSV file the instrument wrote.');
  }
  if (text.trim() === '') broken('The file is empty.', 'Export the measurements again.');
  const isCgats = /^\s*BEGIN_DATA(_FORMAT)?\b/m.test(text);
  const tables = isCgats ? parseCgats(text) : [parseCsv(text)];
  const table = join(tables.filter((one) => one.rows.length > 0));
  return interpret(table, options);
}

/** The table with colours; device values from another one with the same samples, if they stand apart. */
function join(tables: readonly TextTable[]): TextTable {
  const has = (table: TextTable, what: 'colour' | 'device'): boolean => {
    const c = findColumns(table.fields);
    return what === 'device'
      ? (c.rgb ?? c.cmyk) !== null
      : (c.xyz ?? c.lab ?? c.lch) !== null || c.spectrum.length > 0;
  };
  const both = tables.find((table) => has(table, 'colour') && has(table, 'device'));
  if (both !== undefined) return both;
  const colour = tables.find((table) => has(table, 'colour'));
  const device = tables.find((table) => has(table, 'device'));
  if (colour === undefined || device === undefined) {
    return colour ?? device ?? broken('The file holds no measurements.', 'Choose another file.');
  }
  const idOf = (table: TextTable): number => findColumns(table.fields).sampleId ?? -1;
  const byId = new Map(device.rows.map((row) => [row[idOf(device)], row]));
  const matched = colour.rows.map((row) => byId.get(row[idOf(colour)]));
  if (idOf(device) < 0 || idOf(colour) < 0 || matched.some((row) => row === undefined)) return colour;
  return {
    keywords: new Map([...device.keywords, ...colour.keywords]),
    fields: [...colour.fields, ...device.fields],
    rows: colour.rows.map((row, i) => [...row, ...matched[i]!]),
  };
}

function interpret(table: TextTable, options: ReadMeasurementsOptions): MeasurementTable {
  const remarks: string[] = [];
  const columns = findColumns(table.fields);
  const pick = (at: readonly number[]): number[][] =>
    table.rows.map((row, i) => at.map((column) => numberOf(row[column]!, i, table.fields[column]!)));
  const space = columns.rgb !== null ? 'RGB' : columns.cmyk !== null ? 'CMYK' : 'none';
  const deviceColumns = columns.rgb ?? columns.cmyk;
  const device =
    deviceColumns === null
      ? table.rows.map(() => [])
      : deviceRows(pick(deviceColumns), space, remarks, options.deviceFull);
  const spectra = spectraOf(columns, pick, remarks);
  const xyz = coloursOf(table, columns, pick, spectra, remarks);
  const lab = xyz?.map((v) => labFromXyz([v[0] / 100, v[1] / 100, v[2] / 100])) ?? null;
  const sdLab = columns.sdLab === null ? null : (pick(columns.sdLab) as Triple3[]);
  if (sdLab?.some((sd) => sd.some((v) => v < 0))) {
    broken('A standard deviation is negative.', 'Export the measurements again.');
  }
  if (lab !== null && spectra !== null && columns.lab !== null) {
    compare(lab, pick(columns.lab) as Triple3[], remarks);
  }
  if (space === 'none')
    remarks.push('The file does not say with which device values the patches were printed.');
  if (lab === null) remarks.push('The file holds no measured colours.');
  const nameAt = columns.sampleId ?? columns.sampleName;
  return {
    device: { space, rows: device },
    lab,
    xyz,
    spectra,
    sdLab,
    sampleIds: table.rows.map((row, i) => (nameAt === null ? '' : row[nameAt]!) || String(i + 1)),
    keywords: table.keywords,
    remarks,
  };
}

function spectraOf(
  columns: Columns,
  pick: (at: readonly number[]) => number[][],
  remarks: string[],
): SpectralRows | null {
  const [first, second] = columns.spectrum;
  if (first === undefined || second === undefined) return null;
  const stepNm = second.nm - first.nm;
  const even = columns.spectrum.every((band, i) => band.nm === first.nm + i * stepNm);
  if (!even || stepNm <= 0) {
    broken('The wavelengths of the spectra are not evenly spaced.', 'Export spectra every 10 nm.');
  }
  const rows = pick(columns.spectrum.map((band) => band.column));
  const most = rows.reduce((high, row) => Math.max(high, ...row), 0);
  if (most > 400 || rows.some((row) => row.some((v) => v < -5))) {
    broken('The spectra hold values no surface has.', 'Export reflectance as 0–1 or in percent.');
  }
  // Reflectance factors of brightened paper pass 1, never 2.
  const percent = most > 2;
  remarks.push(
    `Colours are worked out from spectra (${first.nm} nm every ${stepNm} nm, ${percent ? 'in percent' : '0 to 1'}).`,
  );
  return { firstNm: first.nm, stepNm, rows: percent ? rows.map((row) => row.map((v) => v / 100)) : rows };
}

function coloursOf(
  table: TextTable,
  columns: Columns,
  pick: (at: readonly number[]) => number[][],
  spectra: SpectralRows | null,
  remarks: string[],
): Triple3[] | null {
  if (spectra !== null) return reflectanceToXyz(spectra.rows, spectra.firstNm, spectra.stepNm);
  const wrong = otherViewing(table.keywords);
  if (wrong !== null && (columns.xyz ?? columns.lab ?? columns.lch) !== null) {
    broken(
      `The colours were worked out for ${wrong}.`,
      'Export them for D50 and the 2° observer, or export spectra.',
    );
  }
  if (columns.xyz !== null) return xyzColours(pick(columns.xyz), remarks);
  const lab =
    columns.lab !== null
      ? pick(columns.lab)
      : columns.lch !== null
        ? pick(columns.lch).map((lch) => labFromLch(lch as Triple3))
        : null;
  lab?.forEach((colour, i) => {
    if (colour[0]! < -5 || colour[0]! > 150 || Math.hypot(colour[1]!, colour[2]!) > 300) {
      broken(`Row ${i + 1} has a colour that cannot be.`, 'Look at this row of the file.', `row ${i + 1}`);
    }
  });
  return (
    lab?.map((colour) => {
      const [x, y, z] = xyzFromLab(colour as Triple3);
      return [100 * x, 100 * y, 100 * z];
    }) ?? null
  );
}

function xyzColours(rows: number[][], remarks: string[]): Triple3[] {
  const most = rows.reduce((high, row) => Math.max(high, row[1]!), 0);
  if (most > 200 || rows.some((row) => row.some((v) => v < -5 || v > 300))) {
    broken('The XYZ columns hold values no surface has.', 'Export XYZ with 100 for white.');
  }
  if (most > 1.5) return rows as Triple3[];
  remarks.push('XYZ is counted from 0 to 1; it was multiplied by 100.');
  return rows.map((row) => row.map((v) => 100 * v) as Triple3);
}

/** An illuminant or observer that the header states and that is not D50, 2°; in words. */
function otherViewing(keywords: ReadonlyMap<string, string>): string | null {
  const text = ['WEIGHTING_FUNCTION', 'ILLUMINATION_NAME', 'ILLUMINANT', 'OBSERVER_ANGLE', 'OBSERVER']
    .map((name) => keywords.get(name) ?? '')
    .join(' ');
  const illuminant = /\b(D55|D65|D75|A|C|F\d{1,2})\b/.exec(
    text.replace(/ILLUMINANT|OBSERVER|DEGREES?|,/gi, ' '),
  )?.[1];
  if (illuminant !== undefined && !/\bD50\b/.test(text)) return `illuminant ${shown(illuminant)}`;
  return /\b10\s*(°|deg)/i.test(text) ? 'the 10° observer' : null;
}

function compare(ours: readonly Triple[], theirs: readonly Triple[], remarks: string[]): void {
  const mean = ours.reduce((sum, lab, i) => sum + deltaE00(lab, theirs[i]!), 0) / ours.length;
  if (mean > 1) {
    remarks.push(
      `The file's own Lab values differ from its spectra under D50, 2° by ${mean.toFixed(1)} ΔE00 on average; the spectra are used.`,
    );
  }
}
