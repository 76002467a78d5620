import type { MeasurementTable } from './types.js';

export interface WriteCgatsOptions {
  /** Who or what made the file. */
  readonly originator: string;
  /** As it should stand in the file; the clock is the caller's. */
  readonly created?: string;
  /** Further keywords: name → value. */
  readonly keywords?: Readonly<Record<string, string>>;
}

/** A CGATS.17 text: device values 0..100, XYZ, Lab, spectra 0..1 as far as the table has them. */
export function writeCgats(table: MeasurementTable, options: WriteCgatsOptions): string {
  const columns: { name: string; value: (i: number) => string }[] = [
    { name: 'SAMPLE_ID', value: (i) => quoted(table.sampleIds[i] ?? String(i + 1)) },
  ];
  const add = (
    names: readonly string[],
    rows: readonly (readonly number[])[] | null,
    digits: number,
    scale = 1,
  ): void => {
    if (rows === null) return;
    names.forEach((name, k) => {
      columns.push({ name, value: (i) => fixed(scale * rows[i]![k]!, digits) });
    });
  };
  const letters = { RGB: ['R', 'G', 'B'], CMYK: ['C', 'M', 'Y', 'K'], none: [] }[table.device.space];
  add(
    letters.map((letter) => `${table.device.space}_${letter}`),
    table.device.rows,
    4,
    100,
  );
  add(['XYZ_X', 'XYZ_Y', 'XYZ_Z'], table.xyz, 4);
  add(['LAB_L', 'LAB_A', 'LAB_B'], table.lab, 4);
  add(['STDEV_L', 'STDEV_A', 'STDEV_B'], table.sdLab, 4);
  if (table.spectra !== null) {
    const { firstNm, stepNm, rows } = table.spectra;
    add(
      (rows[0] ?? []).map((_, k) => `SPECTRAL_NM_${firstNm + k * stepNm}`),
      rows,
      6,
    );
  }
  const count = table.device.rows.length;
  const lines = [
    'CGATS.17',
    `ORIGINATOR ${quoted(options.originator)}`,
    ...(options.created === undefined ? [] : [`CREATED ${quoted(options.created)}`]),
    'WEIGHTING_FUNCTION "ILLUMINANT, D50"',
    'WEIGHTING_FUNCTION "OBSERVER, 2 degree"',
    ...Object.entries(options.keywords ?? {}).flatMap(([name, value]) => [
      `KEYWORD ${quoted(name)}`,
      `${name} ${quoted(value)}`,
    ]),
    `NUMBER_OF_FIELDS ${columns.length}`,
    'BEGIN_DATA_FORMAT',
    columns.map((column) => column.name).join('\t'),
    'END_DATA_FORMAT',
    `NUMBER_OF_SETS ${count}`,
    'BEGIN_DATA',
    ...Array.from({ length: count }, (_, i) => columns.map((column) => column.value(i)).join('\t')),
    'END_DATA',
    '',
  ];
  return lines.join('\n');
}

const quoted = (text: string): string => `"${text.replace(/\p{Cc}/gu, ' ').replaceAll('"', '""')}"`;

/** Without a minus before nought and without needless noughts. */
function fixed(value: number, digits: number): string {
  const text = value.toFixed(digits).replace(/\.?0+$/, '');
  return text === '-0' ? '0' : text;
}
